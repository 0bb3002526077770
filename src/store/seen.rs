//! What some files were when they were last looked at, in a few bytes for all of them.

use super::hash::{Hash, hash};
use super::stamp::{Root, Stamp, Tick};
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// What a set of files was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Seen {
    /// What stands for the stamps of all of them.
    pub stamps: Hash,
    /// Whether one of them could have been written again without a trace in its times, so that the content must be
    /// looked at.
    pub fresh: bool,
    /// What stands for their content.
    pub content: Hash,
}

impl Seen {
    /// Whether the files are surely those that were seen, given what the file system says now.
    #[must_use]
    pub fn is_as(&self, now: &Stamps) -> bool {
        !self.fresh && self.stamps == now.all
    }

    /// The files with these stamps and this content.
    #[must_use]
    pub fn new(stamps: Stamps, content: Hash) -> Self {
        Self { stamps: stamps.all, fresh: stamps.fresh, content }
    }

    /// The same for files that were dated back when they were made (see [`BACK`]): whoever writes them dates them anew,
    /// however soon.
    #[must_use]
    pub fn dated_back(stamps: Stamps, content: Hash) -> Self {
        Self { stamps: stamps.all, fresh: stamps.written, content }
    }
}

/// So far back the files are dated that we make. What is written to one of them in the same tick of the clock then shows.
pub const BACK: Duration = Duration::from_secs(4);

/// What the file system says of some files, none of them opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamps {
    all: Hash,
    /// Whether one of them was written, or given other times, just now.
    fresh: bool,
    /// Whether one of them was written just now, by its own account.
    written: bool,
}

impl Root {
    /// The stamps of the files at these paths, in their order, looked at when it is `now`; a path where nothing lies
    /// counts as such.
    #[must_use]
    pub fn stamps<'p>(&self, paths: impl IntoIterator<Item = &'p str>, now: Tick) -> Stamps {
        let mut bytes = Vec::with_capacity(1024);
        let (mut fresh, mut written) = (false, false);
        for path in paths {
            let stamp = self.stamp(path);
            fresh |= stamp.is_some_and(|stamp| stamp.is_fresh(now));
            written |= stamp.is_some_and(|stamp| stamp.is_written_just_now(now));
            bytes.push(u8::from(stamp.is_some()));
            bytes.extend_from_slice(&stamp.map(Stamp::to_bytes).unwrap_or_default());
        }
        Stamps { all: hash(&bytes), fresh, written }
    }
}

/// What stands for the content of some named files.
#[must_use]
pub fn content<'f>(files: impl IntoIterator<Item = (&'f str, &'f [u8])>) -> Hash {
    content_of(files.into_iter().map(|(name, bytes)| (name, hash(bytes))))
}

/// The same of files whose hashes are known.
#[must_use]
pub fn content_of<'f>(files: impl IntoIterator<Item = (&'f str, Hash)>) -> Hash {
    let mut hashes = Vec::with_capacity(1024);
    for (name, content) in files {
        hashes.extend_from_slice(&hash(name.as_bytes()));
        hashes.extend_from_slice(&content);
    }
    hash(&hashes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_name_or_another_cut_is_another_content() {
        let of = |files: &[(&'static str, &'static [u8])]| content(files.iter().copied());
        assert_eq!(of(&[("a", b"x")]), of(&[("a", b"x")]));
        assert_ne!(of(&[("a", b"x")]), of(&[("b", b"x")]));
        assert_ne!(of(&[("a", b"xy"), ("b", b"")]), of(&[("a", b"x"), ("b", b"y")]));
        assert_ne!(of(&[]), of(&[("", b"")]));
    }
}
