//! What is kept of the packs in a folder: for each what it was made of and what was written. It lies in the folder
//! itself, so that it goes where the packs go; without it every pack is built again.

use super::hash::Hash;
use super::seen::Seen;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The layout of what is kept; another number is not read.
pub(super) const LAYOUT: u64 = 1;

/// Everything that is kept of a folder of packs.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Packs {
    /// The packs by their ids.
    pub packs: BTreeMap<String, PackSeen>,
    /// The cards that went into them.
    pub cards: Vec<CardSeen>,
    /// The libraries of those cards, as absolute paths.
    pub libraries: Vec<String>,
    /// Names of files in packs, codes of blockers: whatever many packs have in common.
    pub words: Vec<String>,
    /// What cards do not know, a line for each gap.
    pub gaps: Vec<String>,
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
    /// Its files' names below its folder, by their place in the list of words, sorted by name.
    pub files: Vec<u32>,
    /// What was written.
    pub written: Seen,
    /// Whether it is ready.
    pub ready: bool,
    /// The codes of its blockers, by their place in the list of words.
    pub codes: Vec<u32>,
    /// Its row of the index.
    pub row: String,
    /// What its cards do not know, by their place in the list of gaps.
    pub gaps: Vec<u32>,
    /// Whether its survey could not be built since, so that it shows what the survey said earlier.
    pub stale: bool,
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
    /// The words at these places.
    pub fn words<'p>(&'p self, places: &'p [u32]) -> impl Iterator<Item = &'p str> {
        places.iter().filter_map(|at| self.words.get(usize::try_from(*at).ok()?)).map(String::as_str)
    }

    /// What a pack's cards do not know.
    pub fn gaps_of<'p>(&'p self, pack: &'p PackSeen) -> impl Iterator<Item = &'p str> {
        pack.gaps.iter().filter_map(|at| self.gaps.get(usize::try_from(*at).ok()?)).map(String::as_str)
    }

    /// The place of a word, which is added where it is new.
    pub fn word(&mut self, word: &str) -> u32 {
        place(&mut self.words, |known| known == word, || word.to_string())
    }

    /// The place of a library, which is added where it is new.
    pub fn library(&mut self, root: &str) -> u32 {
        place(&mut self.libraries, |known| known == root, || root.to_string())
    }

    /// Forgets cards and gaps that no pack needs.
    pub fn tidy(&mut self) {
        self.cards = needed(&self.cards, self.packs.values_mut().filter_map(|pack| pack.cards.as_mut()).flatten());
        self.gaps = needed(&self.gaps, self.packs.values_mut().flat_map(|pack| &mut pack.gaps));
    }
}

/// What of a list is needed, with the places at which it stands then.
fn needed<'p, T: Clone + Default>(list: &[T], places: impl Iterator<Item = &'p mut u32>) -> Vec<T> {
    let mut moved: BTreeMap<u32, u32> = BTreeMap::new();
    let mut needed = Vec::new();
    for at in places {
        let new = moved.entry(*at).or_insert_with(|| {
            needed.push(usize::try_from(*at).ok().and_then(|at| list.get(at)).cloned().unwrap_or_default());
            u32::try_from(needed.len() - 1).unwrap_or(u32::MAX)
        });
        *at = *new;
    }
    needed
}

/// The place of what is meant in a list, to which it is added where it is new.
fn place<T>(list: &mut Vec<T>, is_meant: impl Fn(&T) -> bool, new: impl FnOnce() -> T) -> u32 {
    let at = list.iter().position(is_meant).unwrap_or_else(|| {
        list.push(new());
        list.len() - 1
    });
    u32::try_from(at).unwrap_or(u32::MAX)
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
