//! Whether the board has inputs enough: Hall's condition over the few kinds of demand there are.
//!
//! A loop asks for an input of its wiring. Demands of one wiring are alike, so they fit exactly when every set of
//! wirings asks for no more inputs than accept one of the set; the tamper loop asks for one more.

use crate::model::{Board, Input, InputUse, Wiring};

/// The wirings, as bits of a set.
const WIRINGS: [Wiring; 3] = [Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol];

/// How many sets of wirings there are.
const SETS: usize = 8;

/// The bit of a wiring.
pub(super) fn bit(wiring: Wiring) -> usize {
    match wiring {
        Wiring::ClosedLoop => 0,
        Wiring::SingleEol => 1,
        Wiring::DoubleEol => 2,
    }
}

/// What the tamper loop asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TamperDemand {
    /// No item joins it.
    Nothing,
    /// An input for two cores.
    Pair,
    /// An input whose return is the board's negative.
    Negative,
}

impl TamperDemand {
    /// Every demand, in the order of `Room::caps`.
    pub(super) const ALL: [Self; 3] = [Self::Nothing, Self::Pair, Self::Negative];
}

/// Whether an alarm loop of this wiring may use an input.
pub(super) fn takes_alarm(input: &Input, wiring: Wiring) -> bool {
    input.usage != InputUse::Tamper && input.accepts.contains(&wiring)
}

/// Whether the tamper loop may use an input.
pub(super) fn takes_tamper(input: &Input, demand: TamperDemand) -> bool {
    let usable = input.usage != InputUse::Alarm && input.accepts.contains(&Wiring::ClosedLoop);
    match demand {
        TamperDemand::Nothing => false,
        TamperDemand::Pair => usable,
        TamperDemand::Negative => usable && input.returns_negative,
    }
}

/// For each set of wirings, how many alarm loops of them some inputs can take beside the tamper loop's demand;
/// `None` when the tamper loop itself finds none.
fn caps<'a>(inputs: &(impl Iterator<Item = &'a Input> + Clone), tamper: TamperDemand) -> Option<[u32; SETS]> {
    let mut caps = [0; SETS];
    for (set, cap) in caps.iter_mut().enumerate() {
        let alarm = |input: &Input| WIRINGS.iter().any(|w| set & (1 << bit(*w)) != 0 && takes_alarm(input, *w));
        let alone = inputs.clone().filter(|i| alarm(i)).count();
        let room = if tamper == TamperDemand::Nothing {
            alone
        } else {
            // Hall's condition for the set and the tamper loop together.
            let both = inputs.clone().filter(|i| alarm(i) || takes_tamper(i, tamper)).count();
            alone.min(both.checked_sub(1)?)
        };
        *cap = u32::try_from(room).unwrap_or(u32::MAX);
    }
    Some(caps)
}

/// Whether some inputs can take these many loops of each wiring and the tamper loop.
pub(super) fn fits<'a>(
    inputs: &(impl Iterator<Item = &'a Input> + Clone),
    loops: [u32; 3],
    tamper: TamperDemand,
) -> bool {
    caps(inputs, tamper).is_some_and(|caps| (1..SETS).all(|set| demand(loops, set) <= caps[set]))
}

/// How many of the loops are of a set's wirings.
fn demand(loops: [u32; 3], set: usize) -> u32 {
    (0..3).filter(|b| set & (1 << b) != 0).map(|b| loops[b]).sum()
}

/// The board's room for loops, as the few counts that can bind.
pub(super) struct Room {
    /// The sets of wirings that can bind, as bits.
    pub(super) sets: Vec<usize>,
    /// For each tamper demand, what each of those sets can take; `None` when the tamper loop finds no input.
    pub(super) caps: [Option<Vec<u32>>; 3],
}

impl Room {
    /// The room of a board for at most these many loops of each wiring.
    pub(super) fn new(board: &Board, most: [u32; 3]) -> Self {
        let all = TamperDemand::ALL.map(|t| caps(&board.inputs.iter(), t));
        let binds = |set: usize| all.iter().flatten().any(|caps| caps[set] < demand(most, set));
        let implied = |set: usize| {
            (1..SETS).any(|wider| {
                wider != set && wider & set == set && all.iter().flatten().all(|caps| caps[wider] <= caps[set])
            })
        };
        let mut sets: Vec<usize> = (1..SETS).filter(|s| binds(*s) && !implied(*s)).collect();
        sets.sort_by_key(|set| std::cmp::Reverse(set.count_ones()));
        let caps = all.map(|caps| caps.map(|caps| sets.iter().map(|s| caps[*s]).collect()));
        Self { sets, caps }
    }

    /// Whether inputs can run out at all.
    pub(super) fn is_scarce(&self) -> bool {
        !self.sets.is_empty()
    }
}
