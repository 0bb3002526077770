//! What lay in a library when it was last looked at.

use super::hash::Hash;
use super::packed::{Entries, State};
use std::collections::BTreeSet;

/// Every file and folder of a library, by its path below the library's folder; that folder's own is empty.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Manifest {
    /// Sorted by path.
    pub(super) entries: Entries,
}

impl Manifest {
    /// The file at this path.
    #[must_use]
    pub fn file(&self, path: &str) -> Option<State> {
        let at = self.entries.place(path).ok()?;
        self.entries.get(at).map(|(_, state)| state).filter(|state| !state.is_folder)
    }

    /// The paths of all files.
    pub fn files(&self) -> impl Iterator<Item = &str> {
        self.files_beginning("")
    }

    /// The paths of the files that begin like this.
    pub fn files_beginning<'a>(&'a self, start: &str) -> impl Iterator<Item = &'a str> + use<'a> {
        self.entries.beginning(start).filter(|(_, state)| !state.is_folder).map(|(path, _)| path)
    }

    /// The paths of the files that lie in a folder itself.
    pub fn files_in<'a>(&'a self, folder: &str) -> impl Iterator<Item = &'a str> + use<'a> {
        let start = joined(folder, "");
        let length = start.len();
        let is_in = move |path: &&str| !path.get(length..).unwrap_or_default().contains('/');
        self.files_beginning(&start).filter(is_in)
    }

    /// Says of some files what their content was when they were read.
    pub fn set_hashes(&mut self, hash_of: impl Fn(&str) -> Option<Option<Hash>>) {
        self.entries = self.entries.changed(|path, state| State { hash: hash_of(path).unwrap_or(state.hash), ..state });
    }

    /// Has the content of these files looked at whatever their stamps say, and their folders listed.
    pub fn doubt(&mut self, paths: &BTreeSet<String>) {
        let folders: BTreeSet<&str> = paths.iter().map(|path| folder_of(path)).collect();
        self.entries = self.entries.changed(|path, state| {
            let is_doubted = if state.is_folder { folders.contains(path) } else { paths.contains(path) };
            State { fresh: state.fresh || is_doubted, ..state }
        });
    }
}

/// The path of a name in a folder.
pub(super) fn joined(folder: &str, name: &str) -> String {
    if folder.is_empty() { name.to_string() } else { format!("{folder}/{name}") }
}

/// The path of the folder in which something lies.
pub(super) fn folder_of(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}
