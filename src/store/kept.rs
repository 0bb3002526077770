//! What is kept of a library beside its index.

use super::blocks::Blocks;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// The state of a library's index.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// The index's small files by name.
    pub heads: BTreeMap<String, Vec<u8>>,
    /// The index's large files by name.
    pub needed: BTreeMap<String, Blocks>,
    /// How many cards can be found.
    pub cards: usize,
    /// The rings of words that the index was made with.
    pub rings: Vec<Vec<String>>,
    /// The files that have faults, by their paths, with how many.
    pub faults: BTreeMap<String, usize>,
    /// The files of it that could not be read.
    pub refused: Vec<String>,
    /// The cards that were changed in the index since it was made whole.
    pub patched: BTreeSet<String>,
}

/// What was told of a whole library.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Told {
    /// The library's folder, as the user named it.
    pub root: String,
    /// What was told, as text.
    pub text: String,
    /// The same as JSON.
    pub json: String,
    /// Whether there were faults.
    pub has_faults: bool,
}
