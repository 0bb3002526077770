//! Rings of words that stand for each other, found from any of them.

use super::token::{fold, stem};
use crate::model::Terms;
use std::collections::{BTreeMap, BTreeSet};

/// The rings, ready to be asked.
#[derive(Debug, Clone, Default)]
pub(super) struct Rings {
    others: BTreeMap<String, BTreeSet<String>>,
}

impl Rings {
    /// Folds every word of every ring as marks are folded.
    pub(super) fn new(terms: &Terms) -> Self {
        let mut others: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for ring in &terms.rings {
            let words: BTreeSet<String> = ring.iter().map(|w| stem(&fold(w))).filter(|w| !w.is_empty()).collect();
            for word in &words {
                others.entry(word.clone()).or_default().extend(words.iter().filter(|w| *w != word).cloned());
            }
        }
        Self { others }
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
