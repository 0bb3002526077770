//! What a question needs beside the documents of the index: the rings of words. It is made from the library when the
//! index is built, and is kept with the index.

use super::token::{fold, stem};
use crate::model::Library;
use std::collections::{BTreeMap, BTreeSet};

/// The rings of words that stand for each other, and how many cards the index holds.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lexicon {
    /// How many cards can be found.
    pub cards: usize,
    /// Each ring's words, as the library writes them.
    pub rings: Vec<Vec<String>>,
    /// For each word of a ring, folded as marks are: the others.
    others: BTreeMap<String, BTreeSet<String>>,
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
        let mut others: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for ring in &rings {
            let words: BTreeSet<String> = ring.iter().map(|w| stem(&fold(w))).filter(|w| !w.is_empty()).collect();
            for word in &words {
                others.entry(word.clone()).or_default().extend(words.iter().filter(|w| *w != word).cloned());
            }
        }
        Self { cards, rings, others }
    }

    /// Whether a folded word is in any ring.
    pub(super) fn has(&self, word: &str) -> bool {
        self.others.contains_key(&stem(word))
    }

    /// The other words of the rings that a folded word is in, in alphabetical order.
    pub(super) fn others(&self, word: &str) -> impl Iterator<Item = &str> {
        self.others.get(&stem(word)).into_iter().flatten().map(String::as_str)
    }
}
