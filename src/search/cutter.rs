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
    let phrases = Arc::new(Phrases::of(rings));
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
    known: HashMap<Box<str>, Vec<Arc<Piece>>>,
    /// The text that is being cut: what a card is called is said of each of its facts, one behind the other.
    text: String,
    /// Its pieces.
    pieces: Vec<Arc<Piece>>,
    token: Token,
}

impl Cutter {
    fn cut(&mut self, text: &str) {
        if self.text == text {
            return;
        }
        self.text.clear();
        self.text.push_str(text);
        self.pieces.clear();
        if self.known.len() > MOST {
            self.known.clear();
        }
        for run in raw_words(text).filter_map(|raw| text.get(raw)) {
            if !self.known.contains_key(run) {
                self.known.insert(run.into(), cut(run).into_iter().map(Arc::new).collect());
            }
            let Some([first, more @ ..]) = self.known.get(run).map(Vec::as_slice) else { continue };
            match self.pieces.last().and_then(|last| quantity(last, first)) {
                Some(quantity) => self.pieces.splice(self.pieces.len() - 1.., [Arc::new(quantity)]).for_each(drop),
                None => self.pieces.push(Arc::clone(first)),
            }
            self.pieces.extend(more.iter().cloned());
        }
    }
}

impl Tokenizer for Cutter {
    type TokenStream<'a> = Tokens<'a>;

    fn token_stream<'a>(&'a mut self, text: &'a str) -> Tokens<'a> {
        self.cut(text);
        let Self { is_spelled, phrases, pieces, token, .. } = self;
        Tokens { is_spelled: *is_spelled, phrases, pieces, found: Vec::new(), place: 0, form: 0, token }
    }
}

/// The forms of each word, or its spelling.
struct Tokens<'a> {
    is_spelled: bool,
    phrases: &'a Phrases,
    pieces: &'a [Arc<Piece>],
    /// The phrases that begin with the last piece.
    found: Vec<&'a str>,
    /// The next piece.
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
            let rest = self.pieces.get(self.place..).unwrap_or_default();
            let piece = rest.first()?;
            let found = if self.is_spelled {
                Some(&piece.word).filter(|word| self.form == 0 && word.chars().all(char::is_alphabetic))
            } else {
                piece.forms.get(self.form)
            };
            if let Some(text) = found {
                self.form += 1;
                return Some((self.place, text));
            }
            self.found.extend(self.phrases.beginning(rest));
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
