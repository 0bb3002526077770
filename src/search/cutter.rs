//! Cuts the texts of facts into words for tantivy. Cards say the same words again and again, so each is cut once.

use super::phrases::Phrases;
use super::text::{Piece, cut, quantity, raw_words};
use std::collections::HashMap;
use std::sync::Arc;
use tantivy::tokenizer::{TextAnalyzer, Token, TokenStream, Tokenizer, TokenizerManager};

/// The forms in which words are compared, those of one word at one place.
pub(super) const FORMS: &str = "forms";
/// The words without digits, as they are spelled.
pub(super) const SPELLED: &str = "spelled";
/// A text as it is.
pub(super) const WHOLE: &str = "raw";

/// Cut words are forgotten when there are more.
const MOST: usize = 100_000;

/// How each field's texts are cut in an index with these rings of words.
pub(super) fn cutters(rings: &[Vec<String>]) -> TokenizerManager {
    let cutters = TokenizerManager::default();
    let phrases = Arc::new(Phrases::of(rings.iter().flatten().map(String::as_str)));
    cutters.register(FORMS, TextAnalyzer::from(Cutter { phrases, ..Cutter::default() }));
    cutters.register(SPELLED, TextAnalyzer::from(Cutter { is_spelled: true, ..Cutter::default() }));
    cutters
}

#[derive(Clone, Default)]
struct Cutter {
    is_spelled: bool,
    /// The phrases that are words as well.
    phrases: Arc<Phrases>,
    /// The pieces of each run without spaces.
    known: HashMap<Box<str>, Vec<Arc<Word>>>,
    /// The text that is being cut: what a card is called is said of each of its facts, one behind the other.
    text: String,
    /// Its words.
    words: Vec<Arc<Word>>,
    token: Token,
}

/// A piece of a text.
struct Word {
    piece: Piece,
    /// Whether a phrase may begin with it.
    may_begin: bool,
}

impl Cutter {
    fn cut(&mut self, text: &str) {
        if self.text == text {
            return;
        }
        self.text.clear();
        self.text.push_str(text);
        self.words.clear();
        let word = |piece: Piece| Arc::new(Word { may_begin: self.phrases.may_begin(&piece.forms), piece });
        if self.known.len() > MOST {
            self.known.clear();
        }
        for run in raw_words(text).filter_map(|raw| text.get(raw)) {
            if !self.known.contains_key(run) {
                self.known.insert(run.into(), cut(run).into_iter().map(word).collect());
            }
            let Some([first, more @ ..]) = self.known.get(run).map(Vec::as_slice) else { continue };
            match self.words.last().and_then(|last| quantity(&last.piece, &first.piece)) {
                Some(quantity) => self.words.splice(self.words.len() - 1.., [word(quantity)]).for_each(drop),
                None => self.words.push(Arc::clone(first)),
            }
            self.words.extend(more.iter().cloned());
        }
    }
}

impl Tokenizer for Cutter {
    type TokenStream<'a> = Tokens<'a>;

    fn token_stream<'a>(&'a mut self, text: &'a str) -> Tokens<'a> {
        self.cut(text);
        let Self { is_spelled, phrases, words, token, .. } = self;
        Tokens { is_spelled: *is_spelled, phrases, words, found: Vec::new(), place: 0, form: 0, token }
    }
}

/// The forms of each word, or its spelling.
struct Tokens<'a> {
    is_spelled: bool,
    phrases: &'a Phrases,
    words: &'a [Arc<Word>],
    /// The phrases that begin with the last word.
    found: Vec<&'a str>,
    /// The next word.
    place: usize,
    /// Its next form.
    form: usize,
    token: &'a mut Token,
}

impl<'a> Tokens<'a> {
    fn next(&mut self) -> Option<(usize, &'a str)> {
        loop {
            if let Some(phrase) = self.found.pop() {
                return Some((self.place - 1, phrase));
            }
            let (words, place) = (self.words, self.place);
            let Word { piece, may_begin } = words.get(place)?.as_ref();
            let found = if self.is_spelled {
                Some(&piece.word).filter(|word| self.form == 0 && word.chars().all(char::is_alphabetic))
            } else {
                piece.forms.get(self.form)
            };
            if let Some(text) = found {
                self.form += 1;
                return Some((self.place, text));
            }
            if *may_begin {
                let forms =
                    |at: usize| words.get(place + at).map(|word| word.piece.forms.as_slice()).unwrap_or_default();
                self.found.extend(self.phrases.beginning(forms));
            }
            self.place += 1;
            self.form = 0;
        }
    }
}

impl TokenStream for Tokens<'_> {
    fn advance(&mut self) -> bool {
        let Some((place, text)) = self.next() else { return false };
        self.token.position = place;
        self.token.text.clear();
        self.token.text.push_str(text);
        true
    }

    fn token(&self) -> &Token {
        self.token
    }

    fn token_mut(&mut self) -> &mut Token {
        self.token
    }
}
