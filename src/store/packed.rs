//! How a file's entry is kept: its name and a row of bytes of one length. Read field by field, ten thousand of them would
//! take a quarter of the time of a question.

use super::hash::Hash;
use super::manifest::FileEntry;
use super::stamp::Stamp;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Which of the parts are there.
const FLAGS: usize = 1;
/// A row of bytes: what is there, the stamp, the hash.
const ROW: usize = FLAGS + Stamp::LENGTH + size_of::<Hash>();

const HAS_STAMP: u8 = 1;
const HAS_HASH: u8 = 2;
const IS_FRESH: u8 = 4;

#[derive(Serialize, Deserialize)]
struct Row<'a>(&'a str, &'a [u8]);

impl Serialize for FileEntry {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let flag = |is: bool, flag: u8| if is { flag } else { 0 };
        let flags =
            flag(self.stamp.is_some(), HAS_STAMP) | flag(self.hash.is_some(), HAS_HASH) | flag(self.fresh, IS_FRESH);
        let mut row = Vec::with_capacity(ROW);
        row.push(flags);
        row.extend(self.stamp.unwrap_or_default().to_bytes());
        row.extend(self.hash.unwrap_or_default());
        Row(&self.name, &row).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for FileEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Row(name, row) = Row::deserialize(deserializer)?;
        entry(name, row).ok_or_else(|| D::Error::custom("a row of another length"))
    }
}

fn entry(name: &str, row: &[u8]) -> Option<FileEntry> {
    let (flags, rest) = row.split_first()?;
    let (stamp, hash) = rest.split_at_checked(Stamp::LENGTH)?;
    let (stamp, hash) = (Stamp::from_bytes(stamp)?, Hash::try_from(hash).ok()?);
    Some(FileEntry {
        name: name.to_owned(),
        stamp: (flags & HAS_STAMP != 0).then_some(stamp),
        fresh: flags & IS_FRESH != 0,
        hash: (flags & HAS_HASH != 0).then_some(hash),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_comes_back_as_it_was_kept() {
        let stamp = Stamp::from_bytes(&[7; Stamp::LENGTH]);
        for (stamp, hash, fresh) in [(stamp, Some([9; 16]), false), (None, None, true), (stamp, None, true)] {
            let entry = FileEntry { name: "a.yaml".to_string(), stamp, fresh, hash };
            let kept = postcard::to_stdvec(&entry).expect("bytes");
            assert_eq!(postcard::from_bytes::<FileEntry>(&kept).expect("an entry"), entry);
            let short = postcard::from_bytes::<FileEntry>(&kept[..kept.len() - 1]);
            assert!(short.is_err(), "{short:?}");
        }
    }
}
