//! The files and folders of a library as two runs of bytes: ten thousand entries with a name of their own each would
//! take half the time of a question to read.

use super::hash::Hash;
use super::stamp::Stamp;
use std::fmt;
use std::sync::Arc;

/// Which of the parts are there.
const FLAGS: usize = 1;
/// Where a path ends among the paths.
const END: usize = 4;
/// A row of bytes: where the path ends, what is there, the stamp, the hash.
const ROW: usize = END + FLAGS + Stamp::LENGTH + size_of::<Hash>();

const HAS_STAMP: u8 = 1;
const HAS_HASH: u8 = 2;
const IS_FRESH: u8 = 4;
const IS_FOLDER: u8 = 8;

/// What a file or folder was when it was looked at.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct State {
    /// Whether it is a folder.
    pub is_folder: bool,
    /// `None`: it is not there, or can't be looked at.
    pub stamp: Option<Stamp>,
    /// Whether it could have changed once more without a trace in its times: a file's content, the names in a folder.
    pub fresh: bool,
    /// What a file's content was; `None`: it could not be read.
    pub hash: Option<Hash>,
}

/// Files and folders by their paths, sorted. They stay in the bytes that they were read from.
#[derive(Clone, Default)]
pub(super) struct Entries {
    /// From `start` on a row for each, then every path, one after the other.
    bytes: Arc<Vec<u8>>,
    start: usize,
    /// How many there are.
    count: usize,
}

impl Entries {
    /// Those whose rows begin at `start`; the paths are all that follows them. `None`: they are no entries.
    pub(super) fn of(bytes: Arc<Vec<u8>>, start: usize, count: usize) -> Option<Self> {
        let entries = Self { bytes, start, count };
        let paths = entries.rows_and_paths().1.len();
        let end = count.checked_sub(1).map_or(Some(0), |last| Some(end_of(entries.row(last)?)));
        (start <= entries.bytes.len() && end == Some(paths)).then_some(entries)
    }

    /// The bytes that [`Self::of`] takes.
    pub(super) fn as_bytes(&self) -> &[u8] {
        self.bytes.get(self.start..).unwrap_or_default()
    }

    /// How many there are.
    #[must_use]
    pub(super) fn len(&self) -> usize {
        self.count
    }

    /// Whether there are none.
    #[must_use]
    pub(super) fn is_empty(&self) -> bool {
        self.count == 0
    }

    /// The one at a place.
    #[must_use]
    pub(super) fn get(&self, at: usize) -> Option<(&str, State)> {
        let (_, rest) = self.row(at)?.split_at(END);
        let (flags, rest) = rest.split_first()?;
        let (stamp, hash) = rest.split_at_checked(Stamp::LENGTH)?;
        let state = State {
            is_folder: flags & IS_FOLDER != 0,
            stamp: if flags & HAS_STAMP != 0 { Stamp::from_bytes(stamp) } else { None },
            fresh: flags & IS_FRESH != 0,
            hash: if flags & HAS_HASH != 0 { Hash::try_from(hash).ok() } else { None },
        };
        Some((self.path(at)?, state))
    }

    fn rows_and_paths(&self) -> (&[u8], &[u8]) {
        self.as_bytes().split_at_checked(self.count.saturating_mul(ROW)).unwrap_or_default()
    }

    fn row(&self, at: usize) -> Option<&[u8; ROW]> {
        self.rows_and_paths().0.as_chunks().0.get(at)
    }

    fn path(&self, at: usize) -> Option<&str> {
        let start = at.checked_sub(1).map_or(Some(0), |before| Some(end_of(self.row(before)?)))?;
        str::from_utf8(self.rows_and_paths().1.get(start..end_of(self.row(at)?))?).ok()
    }

    /// All of them.
    pub(super) fn iter(&self) -> impl Iterator<Item = (&str, State)> {
        self.from(0)
    }

    /// Those from a place on.
    pub(super) fn from(&self, at: usize) -> impl Iterator<Item = (&str, State)> {
        (at..self.count).filter_map(|at| self.get(at))
    }

    /// The place of this path; where it is not there, of the first that comes after it.
    pub(super) fn place(&self, path: &str) -> Result<usize, usize> {
        let (mut low, mut high) = (0, self.count);
        while low < high {
            let middle = low.midpoint(high);
            match self.path(middle) {
                Some(found) if found < path => low = middle + 1,
                _ => high = middle,
            }
        }
        if self.path(low) == Some(path) { Ok(low) } else { Err(low) }
    }

    /// Those whose paths begin like this.
    pub(super) fn beginning<'a>(&'a self, start: &str) -> impl Iterator<Item = (&'a str, State)> + use<'a> {
        let (Ok(at) | Err(at)) = self.place(start);
        let start = start.to_string();
        self.from(at).take_while(move |(path, _)| path.starts_with(&start))
    }

    /// Every one as `change` leaves it.
    pub(super) fn changed(&self, change: impl Fn(&str, State) -> State) -> Self {
        self.iter().map(|(path, state)| (path, change(path, state))).collect()
    }
}

fn end_of(row: &[u8; ROW]) -> usize {
    let end = row.first_chunk().map_or(0, |end| u32::from_le_bytes(*end));
    usize::try_from(end).unwrap_or(usize::MAX)
}

/// From paths in their order.
impl<'a> FromIterator<(&'a str, State)> for Entries {
    fn from_iter<I: IntoIterator<Item = (&'a str, State)>>(all: I) -> Self {
        let (mut bytes, mut paths, mut count) = (Vec::new(), Vec::new(), 0);
        let flag = |is: bool, flag: u8| if is { flag } else { 0 };
        for (path, state) in all {
            let flags = flag(state.stamp.is_some(), HAS_STAMP)
                | flag(state.hash.is_some(), HAS_HASH)
                | flag(state.fresh, IS_FRESH)
                | flag(state.is_folder, IS_FOLDER);
            paths.extend(path.bytes());
            bytes.extend(u32::try_from(paths.len()).unwrap_or(u32::MAX).to_le_bytes());
            bytes.push(flags);
            bytes.extend(state.stamp.unwrap_or_default().to_bytes());
            bytes.extend(state.hash.unwrap_or_default());
            count += 1;
        }
        bytes.append(&mut paths);
        Self { bytes: Arc::new(bytes), start: 0, count }
    }
}

impl PartialEq for Entries {
    fn eq(&self, other: &Self) -> bool {
        self.count == other.count && self.as_bytes() == other.as_bytes()
    }
}

impl Eq for Entries {}

impl fmt::Debug for Entries {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_map().entries(self.iter()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some() -> Entries {
        let stamp = Stamp::from_bytes(&[7; Stamp::LENGTH]);
        let folder = State { is_folder: true, stamp, ..State::default() };
        let whole = State { stamp, hash: Some([9; 16]), ..State::default() };
        let fresh = State { fresh: true, ..State::default() };
        [("", folder), ("a", folder), ("a/b.yaml", whole), ("a/c.yaml", fresh), ("ü", folder)].into_iter().collect()
    }

    #[test]
    fn entries_come_back_as_they_were_kept() {
        for entries in [some(), Entries::default()] {
            let bytes = [b"before", entries.as_bytes()].concat();
            let count = entries.len();
            assert_eq!(Entries::of(Arc::new(bytes.clone()), 6, count), Some(entries));
            assert_eq!(Entries::of(Arc::new(bytes.clone()), 6, count + 1), None);
            assert_eq!(Entries::of(Arc::new(bytes.clone()), bytes.len() + 1, count), None);
            assert_eq!(Entries::of(Arc::new([bytes, vec![0]].concat()), 6, count), None);
        }
        let mut short = some().as_bytes().to_vec();
        short.pop();
        assert_eq!(Entries::of(Arc::new(short), 0, 5), None);
    }

    #[test]
    fn entries_are_found_by_path() {
        let entries = some();
        assert_eq!(entries.len(), 5);
        assert_eq!(entries.get(5), None);
        assert_eq!(entries.place(""), Ok(0));
        assert_eq!(entries.place("a/c.yaml"), Ok(3));
        assert_eq!(entries.place("a/c"), Err(3));
        assert_eq!(entries.place("üa"), Err(5));
        let found = |start: &str| entries.beginning(start).map(|(path, _)| path.to_string()).collect::<Vec<_>>();
        assert_eq!(found("a/"), ["a/b.yaml", "a/c.yaml"]);
        assert_eq!(found("ü"), ["ü"]);
        assert!(found("b").is_empty());
    }
}
