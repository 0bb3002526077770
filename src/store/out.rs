//! A folder of packs that one process at a time writes into. What it needs lies in the folder `.wirelore` within: the
//! lock, what is kept of the packs, and packs that are being made.

use super::packs::{LAYOUT, Packs};
use super::{seal, swap};
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// Our own folder in a folder of packs.
const OWN: &str = ".wirelore";
/// Whoever holds it may write.
const LOCK: &str = "lock";
/// What is kept.
const STATE: &str = "state";
/// The folder of packs that are being made. Nothing in it is anybody's but ours.
const WORK: &str = "work";
/// The folder of packs that a new one takes the place of, where two folders can't be exchanged at one moment.
const OLD: &str = "old";

/// The right to write into a folder of packs, until it is dropped.
#[derive(Debug)]
pub struct Out {
    folder: PathBuf,
    /// Closing it, however the process ends, lets the next one in.
    _lock: File,
}

/// What is to be kept, as bytes.
#[derive(Debug)]
pub struct Sealed(Vec<u8>);

impl Packs {
    /// What is known of the packs, ready to be kept.
    ///
    /// # Errors
    /// When it is more than memory holds.
    pub fn to_bytes(&self) -> io::Result<Sealed> {
        seal::seal(LAYOUT, |out| postcard::to_extend(self, out)).map(Sealed)
    }
}

/// Why a folder of packs can't be written into.
#[derive(Debug)]
pub enum Closed {
    /// Another process writes into it.
    Busy,
    /// The machine refuses.
    Refused(io::Error),
}

impl From<io::Error> for Closed {
    fn from(error: io::Error) -> Self {
        Self::Refused(error)
    }
}

impl Out {
    /// The right to write into the folder of packs, which is made where it is not there. What a process that was killed
    /// left half made is cleared away.
    ///
    /// # Errors
    /// When another process has the right, or the folder can't be written.
    pub fn open(folder: &Path) -> Result<Self, Closed> {
        let own = folder.join(OWN);
        fs::create_dir_all(&own)?;
        let lock = File::options().create(true).truncate(false).write(true).open(own.join(LOCK))?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(fs::TryLockError::WouldBlock) => return Err(Closed::Busy),
            Err(fs::TryLockError::Error(error)) => return Err(error.into()),
        }
        let out = Self { folder: folder.to_path_buf(), _lock: lock };
        out.put_back()?;
        clear(&own.join(WORK))?;
        fs::create_dir_all(own.join(WORK))?;
        Ok(out)
    }

    /// The folder.
    #[must_use]
    pub fn place(&self) -> &Path {
        &self.folder
    }

    /// What was kept; nothing when there is none, or it is damaged or laid out otherwise.
    #[must_use]
    pub fn read(&self) -> Packs {
        read(&self.folder).unwrap_or_default()
    }

    /// Puts what is kept in the place of what was kept, at one moment.
    ///
    /// # Errors
    /// When the disk is full or the folder can't be written.
    pub fn keep(&self, packs: &Sealed) -> io::Result<()> {
        let own = self.folder.join(OWN);
        let mut new = tempfile::Builder::new().prefix("state-").tempfile_in(own.join(WORK))?;
        new.write_all(&packs.0)?;
        new.persist(own.join(STATE))?;
        Ok(())
    }

    /// Where a pack or a file can be made before it takes its place.
    #[must_use]
    pub fn work(&self, name: &str) -> PathBuf {
        self.folder.join(OWN).join(WORK).join(name)
    }

    /// Where an old pack lies for a moment while a new one takes its place.
    #[must_use]
    pub fn old(&self, name: &str) -> PathBuf {
        self.folder.join(OWN).join(OLD).join(name)
    }

    /// Waits until all that was written is put down: a disk may say only then that it is full.
    ///
    /// # Errors
    /// When it could not be put down.
    pub fn settle(&self) -> io::Result<()> {
        swap::settle(&self.folder)
    }

    /// A pack whose place is empty goes back to it: the process that wanted to put another there was killed.
    fn put_back(&self) -> io::Result<()> {
        let old = self.folder.join(OWN).join(OLD);
        for entry in fs::read_dir(&old).into_iter().flatten().filter_map(Result::ok) {
            let place = self.folder.join(entry.file_name());
            if fs::symlink_metadata(&place).is_err() {
                fs::rename(entry.path(), place)?;
            }
        }
        clear(&old)
    }
}

/// What was kept in a folder of packs, without the right to write into it.
fn read(folder: &Path) -> Option<Packs> {
    let bytes = fs::read(folder.join(OWN).join(STATE)).ok()?;
    postcard::from_bytes(seal::open(LAYOUT, &bytes)?).ok()
}

/// Removes a folder of ours, where it is there.
fn clear(folder: &Path) -> io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
