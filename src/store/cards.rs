//! Cards that were read once, in a form that is quick to read again. Each lies under the hash of the files it was made of,
//! so that what is found is right whatever happened to the library, and nobody need look which cards changed.
//!
//! Two files: a large one, and a small one that takes what is new until there is enough of it to make the large one anew.

use super::hash::Hash;
use super::place::{Place, Turn};
use super::seal;
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read as _, Seek as _, SeekFrom};
use std::path::Path;
use std::sync::{Mutex, PoisonError};

/// The large file.
const LARGE: &str = "cards";
/// The small file.
const SMALL: &str = "cards-new";
/// So many cards are in the small file at most.
const MOST_SMALL: usize = 500;
/// A large file of more bytes is begun anew: most of what is in it belongs to cards that were changed since.
const LARGEST: usize = 256 * 1024 * 1024;

/// The cards that are kept of a library.
#[derive(Debug, Default)]
pub struct Cards {
    books: Vec<Book>,
}

/// A file of cards, sealed by its list and by a checksum for each card.
#[derive(Debug)]
struct Book {
    file: Mutex<File>,
    /// Each card with where its bytes begin, how many they are, and their checksum; sorted.
    list: Vec<(Hash, u64, u32, u32)>,
    /// Where the first card begins.
    start: u64,
}

impl Place {
    /// The cards that are kept; none where nothing is, or it is damaged or another program's.
    #[must_use]
    pub fn cards(&self) -> Cards {
        let open = |name| Book::open(&self.folder().join(name), self.program());
        Cards { books: [SMALL, LARGE].into_iter().filter_map(open).collect() }
    }
}

impl Cards {
    /// What is kept under a hash.
    #[must_use]
    pub fn get<T: DeserializeOwned>(&self, of: &Hash) -> Option<T> {
        self.books.iter().find_map(|book| card_of(&book.bytes(of)?))
    }
}

impl Turn<'_> {
    /// Adds cards to those that are kept.
    ///
    /// # Errors
    /// When the disk is full or the folder can't be written.
    pub fn add_cards(&self, mut new: BTreeMap<Hash, Vec<u8>>) -> io::Result<()> {
        let (folder, program) = (self.place().folder(), self.place().program());
        let all = |name: &str| Book::open(&folder.join(name), program).map(|book| book.all()).unwrap_or_default();
        new.extend(all(SMALL));
        if new.len() <= MOST_SMALL {
            return self.replace(SMALL, &book(program, &new)?);
        }
        let old = all(LARGE);
        if old.values().map(Vec::len).sum::<usize>() < LARGEST {
            new.extend(old);
        }
        self.replace(LARGE, &book(program, &new)?)?;
        fs::remove_file(folder.join(SMALL)).or(Ok(()))
    }
}

/// A card of bytes that [`card_bytes`] made.
#[must_use]
pub fn card_of<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    postcard::from_bytes(bytes).ok()
}

/// A card as bytes; nothing when it can't be kept.
#[must_use]
pub fn card_bytes<T: Serialize>(card: &T) -> Option<Vec<u8>> {
    postcard::to_stdvec(card).ok()
}

impl Book {
    fn open(path: &Path, program: u64) -> Option<Self> {
        let mut file = File::open(path).ok()?;
        let mut length = [0; 8];
        file.read_exact(&mut length).ok()?;
        let length = u64::from_le_bytes(length);
        let mut head = Vec::new();
        (&mut file).take(length).read_to_end(&mut head).ok()?;
        let list = postcard::from_bytes(seal::open(program, &head)?).ok()?;
        Some(Self { file: Mutex::new(file), list, start: length.checked_add(8)? })
    }

    fn bytes(&self, of: &Hash) -> Option<Vec<u8>> {
        let at = self.list.binary_search_by(|(hash, ..)| hash.cmp(of)).ok()?;
        let (_, begin, length, sum) = *self.list.get(at)?;
        let mut bytes = Vec::with_capacity(usize::try_from(length).ok()?);
        let mut file = self.file.lock().unwrap_or_else(PoisonError::into_inner);
        file.seek(SeekFrom::Start(self.start.checked_add(begin)?)).ok()?;
        (&mut *file).take(u64::from(length)).read_to_end(&mut bytes).ok()?;
        (crc32fast::hash(&bytes) == sum).then_some(bytes)
    }

    /// Every card that is whole.
    fn all(&self) -> BTreeMap<Hash, Vec<u8>> {
        self.list.iter().filter_map(|(hash, ..)| Some((*hash, self.bytes(hash)?))).collect()
    }
}

/// A file of cards.
fn book(program: u64, cards: &BTreeMap<Hash, Vec<u8>>) -> io::Result<Vec<u8>> {
    let mut list = Vec::with_capacity(cards.len());
    let mut all = Vec::new();
    for (hash, bytes) in cards {
        let length = u32::try_from(bytes.len()).map_err(io::Error::other)?;
        let begin = u64::try_from(all.len()).map_err(io::Error::other)?;
        list.push((*hash, begin, length, crc32fast::hash(bytes)));
        all.extend_from_slice(bytes);
    }
    let head = seal::seal(program, |out| postcard::to_extend(&list, out))?;
    let mut out = u64::try_from(head.len()).map_err(io::Error::other)?.to_le_bytes().to_vec();
    out.extend(head);
    out.extend(all);
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::super::hash::hash;
    use super::*;

    fn cards(from: u32, to: u32) -> BTreeMap<Hash, Vec<u8>> {
        (from..to).filter_map(|n| Some((hash(&n.to_le_bytes()), card_bytes(&n)?))).collect()
    }

    fn found(place: &Place, n: u32) -> Option<u32> {
        place.cards().get(&hash(&n.to_le_bytes()))
    }

    #[test]
    fn what_was_added_is_found_and_what_is_damaged_is_not() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let place = Place::new(folder.path().join("place"), 7);
        let add = |new| place.turn().map_or(Ok(()), |turn| turn.add_cards(new));
        assert_eq!(found(&place, 1), None);
        add(cards(0, 10))?;
        add(cards(10, 20))?;
        assert!((0..20).all(|n| found(&place, n) == Some(n)));
        add(cards(20, 2000))?;
        add(cards(2000, 2003))?;
        assert!((0..2003).all(|n| found(&place, n) == Some(n)));
        assert_eq!(found(&place, 2003), None);
        assert_eq!(found(&Place::new(folder.path().join("place"), 8), 1), None, "another program's");
        let path = folder.path().join("place").join(LARGE);
        let whole = fs::read(&path)?;
        for at in (0..whole.len()).step_by(97) {
            let mut scrambled = whole.clone();
            scrambled[at] ^= 0x10;
            fs::write(&path, scrambled)?;
            assert!((0..2000).step_by(301).all(|n| found(&place, n).is_none_or(|found| found == n)), "{at}");
            fs::write(&path, &whole[..at])?;
            assert!((0..2000).step_by(301).all(|n| found(&place, n).is_none_or(|found| found == n)), "{at}");
        }
        Ok(())
    }
}
