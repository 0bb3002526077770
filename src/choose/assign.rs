//! For a choice of cables and methods, which input each loop gets and which output each trigger, in the stated order.

use super::inputs::{TamperDemand, bit, fits, takes_alarm, takes_tamper};
use super::outputs::{Demand, Outputs};
use super::site::{Opt, Site, TamperUse};
use crate::model::{Board, Wiring};

/// What the inputs got.
pub(super) struct Inputs {
    /// For each item, its input.
    pub(super) of: Vec<Option<usize>>,
    /// The tamper loop's.
    pub(super) tamper: Option<usize>,
}

/// An alarm loop that wants an input.
struct Loop {
    item: usize,
    wiring: Wiring,
    /// Its group, where it may share.
    share: Option<usize>,
}

/// What an input carries so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Occupied {
    /// Nothing.
    Free,
    /// A loop that shares with no other.
    Alone,
    /// Loops of this group.
    Group(usize),
}

/// The state of the assignment: who is on which input, and how many loops may still go onto another's.
struct State<'a> {
    board: &'a Board,
    on: Vec<Occupied>,
    to_share: u32,
    tamper: TamperDemand,
}

/// Gives each loop, in the items' order, the first input that still allows the rest, with exactly `shared` loops on
/// inputs that have one already.
pub(super) fn inputs(board: &Board, site: &Site, chosen: &[Option<&Opt>], shared: u32) -> Inputs {
    let loops: Vec<Loop> = chosen
        .iter()
        .enumerate()
        .filter_map(|(item, opt)| {
            let wiring = opt.as_ref()?.method.wiring()?;
            let share = site.items[item].share.filter(|_| wiring == Wiring::ClosedLoop);
            Some(Loop { item, wiring, share })
        })
        .collect();
    let uses = |how: TamperUse| chosen.iter().flatten().any(|o| o.tamper == how);
    let tamper = match (uses(TamperUse::Negative), uses(TamperUse::Pair)) {
        (true, _) => TamperDemand::Negative,
        (false, true) => TamperDemand::Pair,
        (false, false) => TamperDemand::Nothing,
    };
    let mut state = State { board, on: vec![Occupied::Free; board.inputs.len()], to_share: shared, tamper };
    let mut of = vec![None; chosen.len()];
    for (at, run) in loops.iter().enumerate() {
        let rest = &loops[at + 1..];
        of[run.item] = (0..board.inputs.len()).find(|input| state.put(run, *input, rest));
    }
    let tamper =
        (0..board.inputs.len()).find(|i| state.on[*i] == Occupied::Free && takes_tamper(&board.inputs[*i], tamper));
    Inputs { of, tamper }
}

impl State<'_> {
    /// Puts a loop on an input if that can be and the rest can still be placed; else leaves things as they were.
    fn put(&mut self, run: &Loop, input: usize, rest: &[Loop]) -> bool {
        let before = self.on[input];
        let (guest, fits) = match before {
            Occupied::Free => (0, takes_alarm(&self.board.inputs[input], run.wiring)),
            Occupied::Alone => (1, false),
            Occupied::Group(group) => (1, run.share == Some(group)),
        };
        if !fits || guest > self.to_share {
            return false;
        }
        self.on[input] = run.share.map_or(Occupied::Alone, Occupied::Group);
        self.to_share -= guest;
        if self.allows(rest) {
            return true;
        }
        self.on[input] = before;
        self.to_share += guest;
        false
    }

    /// Whether the rest of the loops and the tamper loop still find inputs with just `to_share` of them shared.
    fn allows(&self, rest: &[Loop]) -> bool {
        let mut loops = [0_u32; 3];
        for run in rest {
            loops[bit(run.wiring)] += 1;
        }
        let mut groups: Vec<usize> = rest.iter().filter_map(|run| run.share).collect();
        groups.sort_unstable();
        let can_share = groups.chunk_by(|a, b| a == b).map(|group| {
            let hosted = self.on.contains(&Occupied::Group(group[0]));
            u32::try_from(group.len() - usize::from(!hosted)).unwrap_or(u32::MAX)
        });
        if self.to_share > can_share.sum() {
            return false;
        }
        loops[bit(Wiring::ClosedLoop)] -= self.to_share;
        let free =
            self.board.inputs.iter().enumerate().filter(|(i, _)| self.on[*i] == Occupied::Free).map(|(_, input)| input);
        fits(&free, loops, self.tamper)
    }
}

/// The outputs of each item's triggers, in the items' order and the first that still allow the rest.
pub(super) fn outputs(outputs: &mut Outputs<'_>, site: &Site, chosen: &[Option<&Opt>], mixed: u32) -> Vec<Vec<usize>> {
    let served = || site.items.iter().zip(chosen).filter(|(_, opt)| opt.is_some()).map(|(item, _)| item);
    let demands: Vec<Demand> = served()
        .flat_map(|item| item.triggers.iter().map(|t| Demand { trigger: t.clone(), supply: item.supply }))
        .collect();
    let mut found = outputs.settle(&demands, mixed).into_iter();
    site.items
        .iter()
        .zip(chosen)
        .map(|(item, opt)| if opt.is_some() { found.by_ref().take(item.triggers.len()).collect() } else { Vec::new() })
        .collect()
}
