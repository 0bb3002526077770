//! The ways in which a fact can answer one thing that is asked, each with what it counts: of one thing the best way
//! counts, and over the things they are summed. The figures only order hits: an exact mark with its sign, the same mark
//! written otherwise, a mark that a ring says is the same, what it does, notes and cautions.

use super::ask::{Thing, fuse_number, kind, numbered};
use super::entry::Kind;
use super::lit::Lit;
use super::mark::{self, Key, Sign};
use super::phrases;
use super::stages::ONE_MORE;
use super::steps::{STEPS, steps};
use super::text::{compact, name_key, pieces, stem};
use super::vocabulary::Vocabulary;
use super::way::Way;
use tantivy::query::{BooleanQuery, PhraseQuery, Query, TermQuery, TermSetQuery};
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{TantivyError, Term};

/// The mark as printed.
const EXACT: f32 = 20.0;
/// The same mark written otherwise.
const MARK: f32 = 18.0;
/// A whole name of a card.
const NAME: f32 = 17.0;
/// A word that says which kind of fact is asked for.
const KIND: f32 = 16.0;
/// The mark but for its sign.
const BASE: f32 = 14.0;
/// A mark that a ring says is the same, and the same but for its sign.
const RING_MARK: f32 = 12.0;
const RING_BASE: f32 = 11.0;
/// A name of the card, on any fact of it.
const OF: f32 = 10.0;
/// A mark that the fact is about besides its own.
const RELATED: f32 = 9.0;
/// The word that what it does begins with, and one that a ring says is the same.
const HEAD: f32 = 8.5;
const RING_HEAD: f32 = 7.5;
/// Any word of what it does, and one that a ring says is the same.
const DOES: f32 = 8.0;
const RING_DOES: f32 = 7.0;
/// The same in notes and cautions.
const TOLD: f32 = 6.0;
const RING_TOLD: f32 = 5.5;
/// A word that is not shown.
const EXTRA: f32 = 5.0;
const RING_EXTRA: f32 = 4.75;
/// A word of what the card is called.
const CONTEXT: f32 = 4.0;
/// What it counts besides that a word is there as typed, and not only in another form.
const AS_TYPED: f32 = 0.25;
/// The side asked for, and what only switches that side or comes back on it.
const SIDE: f32 = 8.0;
const SWITCHED: f32 = 3.0;
/// What is left of all these where a word is read as another.
const SLIP: f32 = 0.5;

/// All of them by name, for an index elsewhere that must order as this one does.
pub(super) const WEIGHTS: [(&str, f32); 24] = [
    ("exact", EXACT),
    ("mark", MARK),
    ("name", NAME),
    ("kind", KIND),
    ("base", BASE),
    ("ringMark", RING_MARK),
    ("ringBase", RING_BASE),
    ("of", OF),
    ("related", RELATED),
    ("head", HEAD),
    ("ringHead", RING_HEAD),
    ("does", DOES),
    ("ringDoes", RING_DOES),
    ("told", TOLD),
    ("ringTold", RING_TOLD),
    ("extra", EXTRA),
    ("ringExtra", RING_EXTRA),
    ("context", CONTEXT),
    ("asTyped", AS_TYPED),
    ("side", SIDE),
    ("switched", SWITCHED),
    ("slip", SLIP),
    ("oneMore", ONE_MORE),
    ("steps", STEPS),
];

/// All ways to find a thing, of which the best counts; none when no fact has it.
pub(super) fn find(
    vocabulary: &Vocabulary<'_>,
    thing: &Thing,
    is_alone: bool,
    lit: &mut Lit,
) -> Result<Vec<Way>, TantivyError> {
    let factor = if thing.is_slip { SLIP } else { 1.0 };
    let mut ways = Ways { vocabulary, lit, factor, is_alone, list: Vec::new() };
    for text in &thing.texts {
        ways.add_text(text, thing.name.is_some() && thing.sign.is_none())?;
    }
    ways.word_by_word(&thing.words)?;
    let Some(sign) = thing.sign else { return Ok(ways.list) };
    let side = ways.side(sign, thing.must_have_sign)?;
    let mut signed = ways.signed(thing, sign)?;
    if thing.texts.is_empty() {
        signed.extend(side);
    } else {
        let unsigned = std::mem::take(&mut ways.list);
        signed.extend(Way::together(vec![unsigned.clone(), side]));
        if !thing.must_have_sign {
            signed.extend(unsigned);
        }
    }
    Ok(signed)
}

/// All cards of these names: the cards themselves and their markings first, then what is to beware of, then notes.
pub(super) fn cards(vocabulary: &Vocabulary<'_>, names: &[String]) -> Vec<Way> {
    let fields = vocabulary.fields;
    let of = |kind: Kind, score| way(is(fields.kind, kind.word()), score);
    let names = any(fields.name, names.iter().map(String::as_str));
    vec![way(names, NAME), of(Kind::Caution, TOLD), of(Kind::Note, EXTRA)]
}

/// A query for facts with any of these words in a field.
pub(super) fn any<'a>(field: Field, words: impl Iterator<Item = &'a str>) -> Box<dyn Query> {
    Box::new(TermSetQuery::new(words.map(|word| term(field, word)).collect::<Vec<_>>()))
}

/// A query for facts with a word in a field.
pub(super) fn is(field: Field, word: &str) -> Box<dyn Query> {
    Box::new(TermQuery::new(term(field, word), IndexRecordOption::Basic))
}

fn way(query: Box<dyn Query>, score: f32) -> Way {
    Way::One { query, score: steps(score) }
}

struct Ways<'a> {
    vocabulary: &'a Vocabulary<'a>,
    lit: &'a mut Lit,
    factor: f32,
    /// Nothing else is asked about, so it may be the name of a generic device.
    is_alone: bool,
    list: Vec<Way>,
}

impl Ways<'_> {
    /// Every way to find a text that has no sign.
    fn add_text(&mut self, text: &str, is_name: bool) -> Result<(), TantivyError> {
        let fields = self.vocabulary.fields;
        let key = mark::key(text);
        self.word(fields.printed, &mark::printed(text), EXACT)?;
        self.word(fields.mark, &key.base, MARK)?;
        for base in mark::bases(&key, None) {
            self.word(fields.base, &base, BASE)?;
            self.word(fields.related, &base, RELATED)?;
            self.lit.mark(&base);
        }
        let count = words_in(text);
        if self.is_alone {
            self.word(fields.name, &name_key(text), NAME * count)?;
        }
        if is_name {
            self.word(fields.of, &name_key(text), OF * count)?;
        }
        if let Some(kind) = kind(&text.to_lowercase()) {
            self.word(fields.kind, kind.word(), KIND * count)?;
        }
        if let Some(number) = fuse_number(text) {
            self.fuse(number)?;
        }
        self.numbered(text)?;
        self.phrase(fields.told, text, TOLD * count)?;
        if !is_letters(&key.base) || !self.vocabulary.has(fields.base, &key.base)? {
            self.head(text, HEAD)?;
            for (field, score) in [(fields.does, DOES), (fields.extra, EXTRA), (fields.context, CONTEXT)] {
                self.phrase(field, text, score * count)?;
            }
        }
        self.rings(text, count)
    }

    /// What a ring puts in its place.
    fn rings(&mut self, text: &str, count: f32) -> Result<(), TantivyError> {
        let fields = self.vocabulary.fields;
        let compact = compact(text);
        for other in self.vocabulary.lexicon.others(&compact) {
            let Key { base, .. } = mark::key(other);
            self.word(fields.mark, &base, RING_MARK)?;
            self.word(fields.base, &base, RING_BASE)?;
            self.lit.mark(&base);
            if self.is_alone {
                self.word(fields.name, &name_key(other), RING_MARK * count)?;
            }
            self.head(other, RING_HEAD)?;
            for (field, score) in [(fields.does, RING_DOES), (fields.told, RING_TOLD), (fields.extra, RING_EXTRA)] {
                self.phrase(field, other, score * count)?;
            }
        }
        Ok(())
    }

    /// `jumper 2` is LK2.
    fn numbered(&mut self, text: &str) -> Result<(), TantivyError> {
        for mark in numbered(self.vocabulary, text) {
            self.word(self.vocabulary.fields.mark, &mark, 2.0 * RING_MARK)?;
            self.lit.mark(&mark);
        }
        Ok(())
    }

    /// `fuse 2` is F2 or FS2.
    fn fuse(&mut self, number: &str) -> Result<(), TantivyError> {
        let fields = self.vocabulary.fields;
        for mark in [format!("f{number}"), format!("fs{number}")] {
            if self.vocabulary.has(fields.mark, &mark)? {
                let is_fuse = is(fields.kind, Kind::Fuse.word());
                let is_it = is(fields.mark, &mark);
                self.lit.mark(&mark);
                self.push(Box::new(BooleanQuery::intersection(vec![is_it, is_fuse])), MARK + KIND);
            }
        }
        Ok(())
    }

    /// Several words, each found in its own way in one fact.
    fn word_by_word(&mut self, words: &[String]) -> Result<(), TantivyError> {
        let mut all = Vec::new();
        for word in words {
            let mut one = Ways {
                vocabulary: self.vocabulary,
                lit: self.lit,
                factor: self.factor,
                is_alone: false,
                list: Vec::new(),
            };
            one.add_text(word, self.vocabulary.has(self.vocabulary.fields.of, &name_key(word))?)?;
            all.push(one.list);
        }
        if all.len() > 1 {
            self.list.extend(Way::together(all));
        }
        Ok(())
    }

    /// The mark with its sign.
    fn signed(&mut self, thing: &Thing, sign: Sign) -> Result<Vec<Way>, TantivyError> {
        let fields = self.vocabulary.fields;
        let outer = std::mem::take(&mut self.list);
        for text in thing.texts.iter().map(String::as_str).chain(thing.texts.is_empty().then_some("")) {
            let whole = Key { base: mark::key(text).base, sign: Some(sign) }.whole();
            let whole = if text.is_empty() { sign.symbol().to_string() } else { whole };
            let printed = mark::printed(&thing.typed);
            let as_typed =
                if mark::key(&printed).whole() == whole { printed } else { format!("{text}{}", sign.symbol()) };
            self.word(fields.printed, &mark::printed(&as_typed), EXACT + SIDE)?;
            self.word(fields.mark, &whole, MARK + SIDE)?;
            self.word(fields.related, &whole, RELATED + SIDE)?;
            // A note that says AUX- is about that side.
            self.word(fields.told, &whole, TOLD + SIDE)?;
        }
        Ok(std::mem::replace(&mut self.list, outer))
    }

    /// A side of the supply, by what is known of the fact; said as a word, also by its words.
    fn side(&mut self, sign: Sign, is_word: bool) -> Result<Vec<Way>, TantivyError> {
        let fields = self.vocabulary.fields;
        // A slip in the word says nothing against the sign.
        let outer = (std::mem::take(&mut self.list), std::mem::replace(&mut self.factor, 1.0));
        let symbol = sign.symbol().to_string();
        self.word(fields.itself, &symbol, SIDE)?;
        self.word(fields.side, &symbol, SWITCHED)?;
        if is_word {
            self.phrase(fields.does, sign.word(), DOES)?;
            self.phrase(fields.told, sign.word(), TOLD)?;
        }
        self.factor = outer.1;
        Ok(std::mem::replace(&mut self.list, outer.0))
    }

    fn word(&mut self, field: Field, text: &str, score: f32) -> Result<(), TantivyError> {
        if self.vocabulary.has(field, text)? {
            self.push(is(field, text), score * self.factor);
        }
        Ok(())
    }

    /// A word that what it does begins with.
    fn head(&mut self, text: &str, score: f32) -> Result<(), TantivyError> {
        match pieces(text).as_slice() {
            [piece] => piece.forms.first().map_or(Ok(()), |form| self.word(self.vocabulary.fields.head, form, score)),
            _ => Ok(()),
        }
    }

    /// The words of a text, one behind the other.
    fn phrase(&mut self, field: Field, text: &str, score: f32) -> Result<(), TantivyError> {
        let words = phrases::words(text);
        for word in &words {
            if !self.vocabulary.has(field, word)? {
                return self.word(field, &stem(&name_key(text)), score / words_in(text));
            }
        }
        match words.as_slice() {
            [] => Ok(()),
            [word] => {
                self.lit.word(word);
                let as_typed = text.to_lowercase();
                if as_typed != *word {
                    self.word(field, &as_typed, score + AS_TYPED)?;
                }
                self.word(field, word, score)
            }
            words => {
                for word in words {
                    self.lit.word(word);
                }
                if self.vocabulary.lexicon.is_phrase(text, words) {
                    self.word(field, &phrases::joined(words), score)?;
                } else {
                    let phrase = PhraseQuery::new(words.iter().map(|word| term(field, word)).collect());
                    self.push(Box::new(phrase), score * self.factor);
                }
                self.word(field, &name_key(text), score / words_in(text))
            }
        }
    }

    fn push(&mut self, query: Box<dyn Query>, score: f32) {
        self.list.push(way(query, score));
    }
}

/// Whether a mark is so short that the same letters in a text are something else: T is a mark, and how slow a fuse is.
fn is_letters(base: &str) -> bool {
    base.chars().count() <= 2 && base.chars().all(char::is_alphabetic)
}

fn term(field: Field, text: &str) -> Term {
    Term::from_field_text(field, text)
}

/// How many words a text counts as.
pub(super) fn words_in(text: &str) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "a handful of words")]
    let count = text.split_whitespace().count().clamp(1, 8) as f32;
    count
}
