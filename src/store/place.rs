//! The folder where what belongs to one library is kept.

use super::manifest::Manifest;
use super::packed::Entries;
use super::seal;
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Whoever holds it may write.
const LOCK: &str = "lock";
/// The folder of the large files.
const FILES: &str = "files";
/// What the names of files begin with that are not finished.
const UNFINISHED: &str = ".new-";

/// What is kept of a library.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Name {
    /// The index's state, a [`Kept`](super::Kept): it names all large files.
    State,
    /// What was told of the whole library, a [`Told`](super::Told).
    Told,
}

impl Name {
    fn file(self) -> &'static str {
        match self {
            Self::State => "state",
            Self::Told => "told",
        }
    }
}

/// A folder for one library, for one version of the program.
#[derive(Debug, Clone)]
pub struct Place {
    folder: PathBuf,
    program: u64,
}

impl Place {
    /// The place in `folder`, which need not exist. What another `program` wrote there is not read.
    #[must_use]
    pub fn new(folder: PathBuf, program: u64) -> Self {
        Self { folder, program }
    }

    /// The folder itself.
    pub(super) fn folder(&self) -> &Path {
        &self.folder
    }

    /// The program whose place it is.
    pub(super) fn program(&self) -> u64 {
        self.program
    }

    /// The folder with the large files.
    #[must_use]
    pub fn files(&self) -> PathBuf {
        self.folder.join(FILES)
    }

    /// What was written last under a name, and what lay in the library then; nothing when there is none, it is damaged,
    /// or another program's.
    #[must_use]
    pub fn read<T: DeserializeOwned>(&self, name: Name) -> Option<(T, Manifest)> {
        let bytes = fs::read(self.folder.join(name.file())).ok()?;
        let content = seal::open(self.program, &bytes)?;
        let ((count, value), rest) = postcard::take_from_bytes(content).ok()?;
        let start = bytes.len().checked_sub(rest.len())?;
        Some((value, Manifest { entries: Entries::of(Arc::new(bytes), start, count)? }))
    }

    /// The right to write, without waiting for it: nothing while another process has it, or when nothing can be
    /// written here.
    #[must_use]
    pub fn turn(&self) -> Option<Turn<'_>> {
        fs::create_dir_all(self.files()).ok()?;
        let lock = File::options().create(true).truncate(false).write(true).open(self.folder.join(LOCK)).ok()?;
        lock.try_lock().ok()?;
        Some(Turn { place: self, _lock: lock })
    }
}

/// The right to write into a place, until it is dropped.
#[derive(Debug)]
pub struct Turn<'a> {
    place: &'a Place,
    /// Closing it, however the process ends, lets the next one in.
    _lock: File,
}

impl Turn<'_> {
    /// The place.
    #[must_use]
    pub fn place(&self) -> &Place {
        self.place
    }

    /// Whether a large file is there.
    #[must_use]
    pub fn has(&self, name: &str) -> bool {
        self.place.files().join(name).is_file()
    }

    /// Writes a large file. Nobody looks at it before a state names it, so it may be half there if the process ends.
    ///
    /// # Errors
    /// When the disk is full or the folder can't be written.
    pub fn put(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        File::create(self.place.files().join(name))?.write_all(bytes)
    }

    /// Puts what stands under a name in the place of what stood there, at one moment.
    ///
    /// # Errors
    /// When the disk is full or the folder can't be written.
    pub fn set<T: Serialize>(&self, name: Name, value: &T, manifest: &Manifest) -> io::Result<()> {
        let sealed = seal::seal(self.place.program, |out| {
            let mut out = postcard::to_extend(&(manifest.entries.len(), value), out)?;
            out.extend_from_slice(manifest.entries.as_bytes());
            Ok(out)
        });
        self.replace(name.file(), &sealed?)
    }

    /// Puts a file in the place of the one of that name, at one moment.
    pub(super) fn replace(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let folder = &self.place.folder;
        let mut new = tempfile::Builder::new().prefix(UNFINISHED).tempfile_in(folder)?;
        new.write_all(bytes)?;
        new.persist(folder.join(name))?;
        Ok(())
    }

    /// Deletes every large file but those of `kept`, and what an interrupted process left behind.
    pub fn sweep(&self, kept: &BTreeSet<String>) {
        let is_kept = |name: &str| kept.contains(name);
        delete_in(&self.place.files(), |name| !is_kept(name));
        delete_in(&self.place.folder, |name| name.starts_with(UNFINISHED));
    }
}

/// Deletes the files of a folder whose names are meant. What can't be deleted now will be another time.
fn delete_in(folder: &Path, is_meant: impl Fn(&str) -> bool) {
    for entry in fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok) {
        if is_meant(&entry.file_name().to_string_lossy()) {
            let _ = fs::remove_file(entry.path());
        }
    }
}
