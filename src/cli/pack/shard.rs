//! A part of all surveys, told by their ids alone: the same on any machine, in any order, on any day.

use crate::store::hash;
use std::str::FromStr;

/// The `part`-th of `parts` parts, counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::cli) struct Shard {
    part: u64,
    parts: u64,
}

impl Shard {
    /// Whether the survey of this id is in this part.
    pub(super) fn has(self, id: &str) -> bool {
        let number = hash(id.as_bytes()).first_chunk().map_or(0, |first| u64::from_le_bytes(*first));
        number % self.parts == self.part - 1
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let numbers = || {
            let (part, parts) = text.split_once('/')?;
            Some((part.trim().parse::<u64>().ok()?, parts.trim().parse::<u64>().ok()?))
        };
        match numbers() {
            Some((part, parts)) if part >= 1 && part <= parts => Ok(Self { part, parts }),
            _ => Err("a part of all is K/N, for example 2/4: the second of four".to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_id_is_in_one_part() {
        for parts in 1..9 {
            let shards: Vec<Shard> = (1..=parts).filter_map(|part| format!("{part}/{parts}").parse().ok()).collect();
            assert_eq!(shards.len(), usize::try_from(parts).unwrap_or_default());
            for id in 0..500 {
                let id = format!("site-{id}");
                assert_eq!(shards.iter().filter(|shard| shard.has(&id)).count(), 1);
            }
        }
    }

    #[test]
    fn parts_are_alike_and_never_move() {
        let shard: Shard = "2/4".parse().unwrap_or(Shard { part: 1, parts: 1 });
        let count = (0..1000).filter(|id| shard.has(&format!("site-{id}"))).count();
        assert!((200..300).contains(&count), "{count}");
        // BLAKE3 of "lantern-bakery" never changes, so neither does the part that it is in.
        let parts: Vec<bool> = (1..=4).map(|part| Shard { part, parts: 4 }.has("lantern-bakery")).collect();
        assert_eq!(parts.iter().filter(|is_in| **is_in).count(), 1);
    }

    #[test]
    fn nonsense_is_refused() {
        for text in ["", "1", "0/4", "5/4", "a/b", "1/0", "-1/2", "1/2/3"] {
            assert!(text.parse::<Shard>().is_err(), "{text}");
        }
    }
}
