//! Checksums of a large file, block by block: only what is read of it need be looked at.

use serde::{Deserialize, Serialize};
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};

/// The bytes of a block.
const BLOCK: usize = 1 << 14;

/// What a file was when it was written.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Blocks {
    length: usize,
    sums: Vec<u32>,
}

impl Blocks {
    /// The checksums of a file.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self { length: bytes.len(), sums: bytes.chunks(BLOCK).map(crc32fast::hash).collect() }
    }

    /// Says of a stretch of the file, given the whole of it, whether it is as it was written. Each block is summed once.
    pub fn look(self) -> impl Fn(&[u8], Range<usize>) -> bool + Send + Sync {
        let seen: Vec<AtomicBool> = self.sums.iter().map(|_| AtomicBool::new(false)).collect();
        move |bytes, range| {
            let is_whole = |at: usize| {
                let (Some(seen), Some(sum)) = (seen.get(at), self.sums.get(at)) else { return false };
                if seen.load(Ordering::Relaxed) {
                    return true;
                }
                let block = bytes.get(at * BLOCK..self.length.min((at + 1) * BLOCK));
                let is_whole = block.is_some_and(|block| crc32fast::hash(block) == *sum);
                seen.store(is_whole, Ordering::Relaxed);
                is_whole
            };
            bytes.len() == self.length && (range.start / BLOCK..range.end.div_ceil(BLOCK)).all(is_whole)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_is_whole_where_its_blocks_are() {
        let bytes: Vec<u8> = (0..3 * BLOCK + 5).map(|at| u8::try_from(at % 251).expect("a byte")).collect();
        let blocks = Blocks::of(&bytes);
        let mut damaged = bytes.clone();
        damaged[BLOCK] ^= 1;
        let look = blocks.clone().look();
        assert!(look(&damaged, 0..BLOCK));
        assert!(!look(&damaged, 5..BLOCK + 1));
        assert!(!look(&damaged, 2 * BLOCK - 1..2 * BLOCK));
        assert!(look(&damaged, 2 * BLOCK..bytes.len()));
        assert!(look(&damaged, 7..7), "nothing is read");
        assert!(!look(&bytes, 0..bytes.len() + BLOCK), "more than there is");
        assert!(!blocks.look()(&bytes[..3 * BLOCK], 0..BLOCK), "cut short");
    }
}
