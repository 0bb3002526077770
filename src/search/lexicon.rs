//! What a question needs beside the documents of the index: the rings of words. It is made from the library when the
//! index is built, and is kept with the index.

use super::mark::Sign;
use super::phrases;
use super::text::compact;
use crate::model::Library;
use std::collections::BTreeMap;

/// The rings of words that stand for each other, and how many cards the index holds.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lexicon {
    /// How many cards can be found.
    pub cards: usize,
    /// Each ring's words, as the library writes them.
    pub rings: Vec<Vec<String>>,
    /// For each word of a ring, in one: the rings that hold it.
    places: BTreeMap<String, Vec<usize>>,
}

impl Lexicon {
    /// The lexicon of a library.
    #[must_use]
    pub fn of(library: &Library) -> Self {
        let cards = library.panels.len() + library.boards.len() + library.supplies.len() + library.devices.len();
        Self::new(cards, library.terms.rings.clone())
    }

    /// A lexicon of these rings, for an index of so many cards.
    #[must_use]
    pub fn new(cards: usize, rings: Vec<Vec<String>>) -> Self {
        let mut places: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (at, ring) in rings.iter().enumerate() {
            for word in ring.iter().map(|word| compact(word)).filter(|word| !word.is_empty()) {
                let rings = places.entry(word).or_default();
                if rings.last() != Some(&at) {
                    rings.push(at);
                }
            }
        }
        Self { cards, rings, places }
    }

    /// Whether words, in one, are in any ring.
    pub(super) fn has(&self, compact: &str) -> bool {
        self.places.contains_key(compact)
    }

    /// The other words of the rings that these words are in. What only says a sign is no other word for anything.
    pub(super) fn others<'a>(&'a self, words: &'a str) -> impl Iterator<Item = &'a str> {
        let others = self.rings_of(words).flatten().map(String::as_str);
        others.filter(move |other| Sign::said(other).is_none() && compact(other) != words)
    }

    /// Whether a text, of these words in their commonest forms, is a phrase of a ring.
    pub(super) fn is_phrase(&self, text: &str, words: &[String]) -> bool {
        let compacted = compact(text);
        let mut known = self.rings_of(&compacted).flatten();
        known.any(|known| compact(known) == compacted && phrases::words(known) == words)
    }

    /// The rings that hold words, in one.
    fn rings_of(&self, compact: &str) -> impl Iterator<Item = &Vec<String>> {
        self.places.get(compact).into_iter().flatten().filter_map(|at| self.rings.get(*at))
    }

    /// Every word that stands alone in a ring, for slips of the finger.
    pub(super) fn words(&self) -> impl Iterator<Item = &str> {
        self.rings.iter().flatten().map(String::as_str).filter(|word| word.chars().all(char::is_alphabetic))
    }
}
