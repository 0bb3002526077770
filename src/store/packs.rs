//! What is kept of the packs in a folder: for each what it was made of and what was written. It lies in the folder
//! itself, so that it goes where the packs go; without it every pack is built again.

use super::hash::Hash;
use super::seen::Seen;
use super::words::{Words, needed, number};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The layout of what is kept; another number is not read.
pub(super) const LAYOUT: u64 = 2;

/// Everything that is kept of a folder of packs.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Packs {
    /// The packs by their ids.
    pub packs: BTreeMap<String, PackSeen>,
    /// The cards that went into them.
    pub cards: Vec<CardSeen>,
    /// The libraries of those cards, as absolute paths.
    pub libraries: Vec<String>,
    /// Names of files, texts of rows, lines of gaps: whatever packs have in common.
    pub words: Words,
    /// The index over the packs: what it was made of, and what was written.
    pub index: Option<(Hash, Seen)>,
}

/// A pack.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PackSeen {
    /// The absolute path of its survey; empty when it has none.
    pub survey: String,
    /// What the survey was.
    pub source: Seen,
    /// The cards that went into it, by their place in the list; `None`: they are not known, so that it is built each time.
    pub cards: Option<Vec<u32>>,
    /// What stands for all that went into it.
    pub inputs: Hash,
    /// Its files' names below its folder, by their places among the words, sorted by name.
    pub files: Vec<u32>,
    /// What was written.
    pub written: Seen,
    /// Whether it is ready.
    pub ready: bool,
    /// The codes of its blockers, by their places among the words.
    pub codes: Vec<u32>,
    /// Its row of the index.
    pub row: RowSeen,
    /// What its cards do not know, a line for each gap, by their places among the words.
    pub gaps: Vec<u32>,
    /// Whether its survey could not be built since, so that it shows what the survey said earlier.
    pub stale: bool,
}

/// A pack's row of the index.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RowSeen {
    /// Its texts, by their places among the words.
    pub texts: Vec<u32>,
    /// Its numbers.
    pub counts: Vec<usize>,
}

/// A card with its notes, or rules.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CardSeen {
    /// Which library it lies in, by its place in the list.
    pub library: u32,
    /// Its id; of rules `rules/ID`.
    pub key: String,
    /// The names of its notes.
    pub notes: Vec<String>,
    /// What its files were.
    pub seen: Seen,
    /// How many faults they had.
    pub faults: u32,
}

impl Packs {
    /// The place of a library, which is added where it is new.
    pub fn library(&mut self, root: &str) -> u32 {
        let at = self.libraries.iter().position(|known| known == root).unwrap_or_else(|| {
            self.libraries.push(root.to_string());
            self.libraries.len() - 1
        });
        number(at)
    }

    /// Forgets cards and words that no pack needs.
    pub fn tidy(&mut self) {
        let cards = std::mem::take(&mut self.cards);
        self.cards = needed(cards, self.packs.values_mut().filter_map(|pack| pack.cards.as_mut()).flatten());
        self.words.tidy(self.packs.values_mut().flat_map(PackSeen::words));
    }
}

impl PackSeen {
    /// The places of all its words.
    fn words(&mut self) -> impl Iterator<Item = &mut u32> {
        [&mut self.files, &mut self.codes, &mut self.row.texts, &mut self.gaps].into_iter().flatten()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_card_that_no_pack_needs_is_forgotten() {
        let card = |key: &str| CardSeen { key: key.into(), ..CardSeen::default() };
        let pack = |cards: &[u32]| PackSeen { cards: Some(cards.to_vec()), ..PackSeen::default() };
        let mut packs = Packs {
            cards: ["a", "b", "c"].map(card).to_vec(),
            packs: BTreeMap::from([("x".to_string(), pack(&[2, 0])), ("y".to_string(), pack(&[0]))]),
            ..Packs::default()
        };
        packs.tidy();
        let keys: Vec<&str> = packs.cards.iter().map(|card| card.key.as_str()).collect();
        assert_eq!(keys, ["c", "a"]);
        assert_eq!(packs.packs["x"].cards, Some(vec![0, 1]));
        assert_eq!(packs.packs["y"].cards, Some(vec![1]));
    }
}
