//! What is kept of a library beside its index.

use super::manifest::Manifest;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// The state of a library's place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// The index's small files by name.
    pub heads: BTreeMap<String, Vec<u8>>,
    /// The names of the index's large files.
    pub needed: BTreeSet<String>,
    /// How many cards can be found.
    pub cards: usize,
    /// The rings of words that the index was made with.
    pub rings: Vec<Vec<String>>,
    /// How many faults the library has.
    pub faults: usize,
    /// The files of it that could not be read.
    pub refused: Vec<String>,
    /// The cards that were changed in the index since it was made whole.
    pub patched: BTreeSet<String>,
    /// What lay in the library.
    pub manifest: Manifest,
}

impl Kept {
    /// As bytes. `None`: there is no memory for them.
    #[must_use]
    pub fn to_bytes(&self) -> Option<Vec<u8>> {
        postcard::to_stdvec(self).ok()
    }

    /// From its bytes; nothing when they are not a state's.
    #[must_use]
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}
