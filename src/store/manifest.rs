//! What lay in a library when it was last looked at.

use super::hash::Hash;
use super::packed::{FileEntries, FileEntry};
use super::stamp::Stamp;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Every folder of a library with its files.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Manifest {
    /// Sorted by name.
    pub folders: Vec<FolderEntry>,
}

/// A folder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FolderEntry {
    /// Its path below the library's folder; empty for that folder itself.
    pub name: String,
    /// `None`: it is not there, or can't be looked at.
    pub stamp: Option<Stamp>,
    /// Whether a name in it could come or go without a trace in its times.
    pub fresh: bool,
    /// Its files.
    pub files: FileEntries,
}

impl FolderEntry {
    /// The path of a name in it.
    #[must_use]
    pub fn path(&self, name: &str) -> String {
        if self.name.is_empty() { name.to_string() } else { format!("{}/{name}", self.name) }
    }
}

impl Manifest {
    /// The folder of this name.
    #[must_use]
    pub fn folder(&self, name: &str) -> Option<&FolderEntry> {
        let at = self.folders.binary_search_by(|folder| folder.name.as_str().cmp(name)).ok()?;
        self.folders.get(at)
    }

    /// The file at this path.
    #[must_use]
    pub fn file(&self, path: &str) -> Option<FileEntry<'_>> {
        let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
        self.folder(folder)?.files.named(name)
    }

    /// Says of some files what their content was when they were read.
    pub fn set_hashes(&mut self, hash_of: impl Fn(&str) -> Option<Option<Hash>>) {
        for folder in &mut self.folders {
            let prefix = folder.path("");
            folder.files.change(|file| {
                let hash = hash_of(&format!("{prefix}{}", file.name)).unwrap_or(file.hash);
                FileEntry { hash, ..file }
            });
        }
    }

    /// Has the content of these files looked at whatever their stamps say, and their folders listed.
    pub fn doubt(&mut self, paths: &BTreeSet<String>) {
        for folder in &mut self.folders {
            let prefix = folder.path("");
            let mine = paths.iter().filter_map(|path| path.strip_prefix(&prefix));
            let names: BTreeSet<&str> = mine.filter(|name| !name.contains('/')).collect();
            if !names.is_empty() {
                folder.fresh = true;
                folder.files.change(|file| FileEntry { fresh: file.fresh || names.contains(file.name), ..file });
            }
        }
    }

    /// The path of every file.
    pub fn paths(&self) -> impl Iterator<Item = String> {
        self.folders.iter().flat_map(|folder| folder.files.iter().map(|file| folder.path(file.name)))
    }
}
