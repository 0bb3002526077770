//! What another index of the same facts needs to answer as this one does: the facts in their order with the words
//! they are found under, and how questions are read and hits weighed.

use super::ask::{FILLERS, KINDS, WEAK};
use super::entry::{Hit, Kind};
use super::facts;
use super::lexicon::Lexicon;
use super::mark::{self, Sign};
use super::terms::{self, Terms};
use super::text::{UNITS, compact, name_key, pieces, stem};
use super::ways::{WEIGHTS, words_in};
use crate::model::Library;

/// All facts of a library, in the order in which equal hits are listed, with the words each is found under.
pub fn indexed(library: &Library) -> impl Iterator<Item = (Hit, Terms)> {
    facts::of(library).map(|entry| {
        let terms = terms::of(&entry);
        (entry.hit, terms)
    })
}

/// How questions are read.
#[derive(Debug, Clone)]
pub struct Habits {
    /// Words that ask and do not name.
    pub fillers: &'static [&'static str],
    /// Words that need not be found.
    pub weak: &'static [&'static str],
    /// Words that name a kind of fact.
    pub kinds: &'static [(&'static str, Kind)],
    /// Units that belong to the number before them.
    pub units: &'static [&'static str],
    /// What each way to be found counts.
    pub weights: &'static [(&'static str, f32)],
}

/// The habits of this search.
pub const HABITS: Habits = Habits { fillers: &FILLERS, weak: &WEAK, kinds: &KINDS, units: &UNITS, weights: &WEIGHTS };

/// A word of a ring, in all the ways in which it is looked up.
#[derive(Debug, Clone, PartialEq)]
pub struct RingWord {
    /// As the library writes it.
    pub word: String,
    /// Its words, each in the form in which it is compared first.
    pub forms: Vec<String>,
    /// The same in one.
    pub compact: String,
    /// Without a sign, as a mark.
    pub base: String,
    /// As a name.
    pub name: String,
    /// How many words it counts as.
    pub count: f32,
    /// Whether it only says a sign, and so stands for no other word.
    pub is_sign: bool,
}

/// The rings of a library.
#[must_use]
pub fn rings(library: &Library) -> Vec<Vec<RingWord>> {
    Lexicon::of(library).rings.iter().map(|ring| ring.iter().map(|word| ring_word(word)).collect()).collect()
}

fn ring_word(word: &str) -> RingWord {
    RingWord {
        word: word.to_string(),
        forms: words(word).into_iter().map(|(_, form)| form).collect(),
        compact: compact(word),
        base: mark::key(word).base,
        name: name_key(word),
        count: words_in(word),
        is_sign: Sign::said(word).is_some(),
    }
}

/// A mark as it is compared, its sign at its end.
#[must_use]
pub fn mark(text: &str) -> String {
    mark::key(text).whole()
}

/// The words of a text, each as written and in the form in which it is compared first.
#[must_use]
pub fn words(text: &str) -> Vec<(String, String)> {
    let first = |piece: super::text::Piece| Some((piece.word, piece.forms.into_iter().next()?));
    pieces(text).into_iter().filter_map(first).collect()
}

/// The form in which a word of running text is compared.
#[must_use]
pub fn form(word: &str) -> String {
    stem(word)
}
