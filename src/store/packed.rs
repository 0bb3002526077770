//! The files of a folder as two runs of bytes: ten thousand entries with a name of their own each would take half the
//! time of a question to read.

use super::hash::Hash;
use super::stamp::Stamp;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Which of the parts are there.
const FLAGS: usize = 1;
/// Where a name ends among the names.
const END: usize = 4;
/// A row of bytes: where the name ends, what is there, the stamp, the hash.
const ROW: usize = END + FLAGS + Stamp::LENGTH + size_of::<Hash>();

const HAS_STAMP: u8 = 1;
const HAS_HASH: u8 = 2;
const IS_FRESH: u8 = 4;

/// A file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FileEntry<'a> {
    /// Its name in its folder.
    pub name: &'a str,
    /// `None`: it can't be looked at.
    pub stamp: Option<Stamp>,
    /// Whether it could have been written again without a trace in its times, so that its content must be looked at.
    pub fresh: bool,
    /// What its content was; `None`: it could not be read.
    pub hash: Option<Hash>,
}

/// The files of a folder, sorted by name.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FileEntries {
    /// Every name, one after the other.
    names: String,
    /// A row for each.
    rows: Vec<u8>,
}

impl FileEntries {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.rows.len() / ROW
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The one at a place.
    #[must_use]
    pub fn get(&self, at: usize) -> Option<FileEntry<'_>> {
        let (rows, _) = self.rows.as_chunks::<ROW>();
        let (end, rest) = rows.get(at)?.split_first_chunk::<END>()?;
        let start = at.checked_sub(1).map_or(Some(0), |before| end_of(rows.get(before)?))?;
        let name = self.names.get(start..usize::try_from(u32::from_le_bytes(*end)).ok()?)?;
        let (flags, rest) = rest.split_first()?;
        let (stamp, hash) = rest.split_at_checked(Stamp::LENGTH)?;
        Some(FileEntry {
            name,
            stamp: if flags & HAS_STAMP != 0 { Stamp::from_bytes(stamp) } else { None },
            fresh: flags & IS_FRESH != 0,
            hash: if flags & HAS_HASH != 0 { Hash::try_from(hash).ok() } else { None },
        })
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = FileEntry<'_>> {
        self.from(0)
    }

    /// Those from a place on.
    fn from(&self, at: usize) -> impl Iterator<Item = FileEntry<'_>> {
        (at..self.len()).filter_map(|at| self.get(at))
    }

    /// The one of this name.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<FileEntry<'_>> {
        self.named_from(name).next().filter(|file| file.name == name)
    }

    /// Those whose names are this one or come after it.
    pub fn named_from(&self, name: &str) -> impl Iterator<Item = FileEntry<'_>> {
        let (mut low, mut high) = (0, self.len());
        while low < high {
            let middle = low.midpoint(high);
            match self.get(middle) {
                Some(file) if file.name < name => low = middle + 1,
                _ => high = middle,
            }
        }
        self.from(low)
    }

    /// Adds one, whose name comes after the last.
    pub fn push(&mut self, file: FileEntry<'_>) {
        let flag = |is: bool, flag: u8| if is { flag } else { 0 };
        let flags =
            flag(file.stamp.is_some(), HAS_STAMP) | flag(file.hash.is_some(), HAS_HASH) | flag(file.fresh, IS_FRESH);
        self.names.push_str(file.name);
        let end = u32::try_from(self.names.len()).unwrap_or(u32::MAX);
        self.rows.extend(end.to_le_bytes());
        self.rows.push(flags);
        self.rows.extend(file.stamp.unwrap_or_default().to_bytes());
        self.rows.extend(file.hash.unwrap_or_default());
    }

    /// Every one as `change` leaves it.
    pub(super) fn change(&mut self, change: impl Fn(FileEntry<'_>) -> FileEntry<'_>) {
        let changed = self.iter().map(change).collect();
        *self = changed;
    }
}

fn end_of(row: &[u8; ROW]) -> Option<usize> {
    usize::try_from(u32::from_le_bytes(*row.first_chunk()?)).ok()
}

impl<'a> FromIterator<FileEntry<'a>> for FileEntries {
    fn from_iter<I: IntoIterator<Item = FileEntry<'a>>>(files: I) -> Self {
        let mut entries = Self::default();
        files.into_iter().for_each(|file| entries.push(file));
        entries
    }
}

impl Serialize for FileEntries {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        (self.names.as_str(), Bytes(&self.rows)).serialize(serializer)
    }
}

/// Bytes as one run, not number by number.
struct Bytes<'a>(&'a [u8]);

impl Serialize for Bytes<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_bytes(self.0)
    }
}

impl<'de> Deserialize<'de> for FileEntries {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let (names, rows) = <(String, &[u8])>::deserialize(deserializer)?;
        let (whole, rest) = rows.as_chunks::<ROW>();
        let end = whole.last().map_or(Some(0), end_of);
        if !rest.is_empty() || end != Some(names.len()) {
            return Err(D::Error::custom("rows of another length"));
        }
        Ok(Self { names, rows: rows.to_vec() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some() -> FileEntries {
        let stamp = Stamp::from_bytes(&[7; Stamp::LENGTH]);
        let parts = [("a.yaml", stamp, Some([9; 16]), false), ("b.yaml", None, None, true), ("ü", stamp, None, true)];
        parts.into_iter().map(|(name, stamp, hash, fresh)| FileEntry { name, stamp, fresh, hash }).collect()
    }

    #[test]
    fn entries_come_back_as_they_were_kept() {
        for entries in [some(), FileEntries::default()] {
            let kept = postcard::to_stdvec(&entries).expect("bytes");
            assert_eq!(postcard::from_bytes::<FileEntries>(&kept).expect("entries"), entries);
        }
        let mut short = some();
        short.rows.pop();
        let short = postcard::to_stdvec(&short).expect("bytes");
        assert!(postcard::from_bytes::<FileEntries>(&short).is_err());
        let mut fewer = some();
        fewer.names.pop();
        let fewer = postcard::to_stdvec(&fewer).expect("bytes");
        assert!(postcard::from_bytes::<FileEntries>(&fewer).is_err());
    }

    #[test]
    fn entries_are_found_by_name() {
        let entries = some();
        assert_eq!(entries.len(), 3);
        assert_eq!(entries.named("b.yaml"), entries.get(1));
        assert_eq!(entries.named("b"), None);
        assert_eq!(entries.get(3), None);
        let names = |from: &str| entries.named_from(from).map(|file| file.name).collect::<Vec<_>>();
        assert_eq!(names(""), ["a.yaml", "b.yaml", "ü"]);
        assert_eq!(names("b"), ["b.yaml", "ü"]);
        assert!(names("üa").is_empty());
    }
}
