//! What the file system says of a file without opening it.

use serde::{Deserialize, Serialize};

/// Nanoseconds since 1970.
pub type Tick = i64;

/// How long after a change another one may leave the same times behind: some file systems count in steps of two
/// seconds, and clocks of a server and of this machine differ.
const STEP: Tick = 3_000_000_000;

/// What tells a file from what lay there before.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Its size in bytes.
    size: u64,
    /// When its content was last written.
    written: Tick,
    /// When anything about it last changed, its name or its times among it.
    changed: Tick,
    /// Its number on the disk.
    inode: u64,
}

impl Stamp {
    /// How many bytes [`Self::to_bytes`] gives.
    pub(super) const LENGTH: usize = 32;

    /// The stamp as bytes.
    pub(super) fn to_bytes(self) -> [u8; Self::LENGTH] {
        let Self { size, written, changed, inode } = self;
        let parts = [size.to_le_bytes(), written.to_le_bytes(), changed.to_le_bytes(), inode.to_le_bytes()];
        let mut bytes = [0; Self::LENGTH];
        bytes.iter_mut().zip(parts.as_flattened()).for_each(|(to, from)| *to = *from);
        bytes
    }

    /// The stamp of these bytes; `None` when they are too few or too many.
    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let (parts, rest) = bytes.as_chunks::<8>();
        let [size, written, changed, inode] = *parts else { return None };
        let stamp = Self {
            size: u64::from_le_bytes(size),
            written: Tick::from_le_bytes(written),
            changed: Tick::from_le_bytes(changed),
            inode: u64::from_le_bytes(inode),
        };
        rest.is_empty().then_some(stamp)
    }

    /// Whether the file could be written once more without a trace in its times, looked at when it was `now`.
    #[must_use]
    pub fn is_fresh(&self, now: Tick) -> bool {
        self.written.max(self.changed) > now.saturating_sub(STEP)
    }

    /// Whether its content was written just now, looked at when it was `now`.
    pub(super) fn is_written_just_now(&self, now: Tick) -> bool {
        self.written > now.saturating_sub(STEP)
    }
}

/// A folder in which names are looked up.
#[derive(Debug)]
pub struct Root {
    #[cfg(unix)]
    folder: std::fs::File,
    #[cfg(not(unix))]
    folder: std::path::PathBuf,
}

#[cfg(unix)]
impl Root {
    /// The folder, opened.
    ///
    /// # Errors
    /// When it can't be.
    pub fn open(folder: &std::path::Path) -> std::io::Result<Self> {
        Ok(Self { folder: std::fs::File::open(folder)? })
    }

    /// The stamp of what lies at a path below the folder; links are followed. `None`: it can't be looked at.
    pub(super) fn stamp(&self, path: &str) -> Option<Stamp> {
        use rustix::fs::{AtFlags, statat};
        let path = if path.is_empty() { "." } else { path };
        // Looked up from the open folder: the way to it is not walked once for each of ten thousand files.
        let found = statat(&self.folder, path, AtFlags::empty()).ok()?;
        Some(Stamp {
            size: u64::try_from(found.st_size).ok()?,
            written: nanoseconds(found.st_mtime, i64::try_from(found.st_mtime_nsec).ok()?),
            changed: nanoseconds(found.st_ctime, i64::try_from(found.st_ctime_nsec).ok()?),
            inode: found.st_ino,
        })
    }
}

#[cfg(unix)]
fn nanoseconds(seconds: i64, rest: i64) -> Tick {
    seconds.saturating_mul(1_000_000_000).saturating_add(rest)
}

#[cfg(not(unix))]
impl Root {
    /// The folder, opened.
    ///
    /// # Errors
    /// When it can't be.
    pub fn open(folder: &std::path::Path) -> std::io::Result<Self> {
        Ok(Self { folder: folder.to_path_buf() })
    }

    /// The stamp of what lies at a path below the folder; links are followed. `None`: it can't be looked at.
    pub(super) fn stamp(&self, path: &str) -> Option<Stamp> {
        let found = std::fs::metadata(self.folder.join(path)).ok()?;
        let written = found.modified().ok()?.duration_since(std::time::UNIX_EPOCH).ok()?;
        let written = Tick::try_from(written.as_nanos()).ok()?;
        Some(Stamp { size: found.len(), written, changed: written, inode: 0 })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_written_just_now_could_change_unseen() {
        let stamp = Stamp { size: 1, written: 10 * STEP, changed: 10 * STEP, inode: 1 };
        assert!(stamp.is_fresh(10 * STEP));
        assert!(stamp.is_fresh(11 * STEP - 1));
        assert!(!stamp.is_fresh(11 * STEP));
        assert!(stamp.is_fresh(9 * STEP), "a clock that runs behind");
    }
}
