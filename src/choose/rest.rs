//! What the places that are still to come must cost at least: what makes most ways hopeless at once.

use super::cost::Packed;
use super::key::{Key, Layout};
use super::place::Table;

/// What places must cost at least.
pub(super) struct Rest {
    /// Whatever is left for them.
    pub(super) all: Packed,
    /// For each set of inputs, by how many are left with all that sharing could ever free, shared loops priced.
    pub(super) priced: Vec<Vec<Packed>>,
    /// For each set of inputs, by how many are left and no more.
    pub(super) bounded: Vec<Vec<Packed>>,
    /// By how many items with triggers the outputs can still take, as far as that is known.
    pub(super) fired: Vec<Packed>,
    /// How many loops of each group these places could have.
    pub(super) loops: Vec<u32>,
}

impl Rest {
    /// How many loops more could go onto another's input, when these groups have a loop already.
    pub(super) fn may_share(&self, key: Key) -> u32 {
        let more = |(group, loops): (usize, &u32)| {
            if Layout::has_group(key, group) { *loops } else { loops.saturating_sub(1) }
        };
        self.loops.iter().enumerate().map(more).sum()
    }
}

/// The entry of a row, its last one when there is more left than could be used.
pub(super) fn row_at(row: &[Packed], left: u32) -> Packed {
    row.get(left as usize).or(row.last()).copied().unwrap_or(0)
}

/// What a place and those after it must cost at least, by how much of something is left, given the same for those after
/// it. `taken` says how much of it a key takes.
pub(super) fn row_before(table: &Table, least: Packed, after: &[Packed], taken: impl Fn(Key) -> u32) -> Vec<Packed> {
    let best = |left: usize| {
        if !table.complete {
            return after[left] + least;
        }
        let ways = table
            .entries
            .iter()
            .filter_map(|e| left.checked_sub(taken(e.key) as usize).map(|l| after[l].saturating_add(e.cost)));
        ways.min().unwrap_or(Packed::MAX / 2)
    };
    (0..after.len()).map(best).collect()
}
