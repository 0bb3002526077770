//! Which output fires what: feasibility, the fewest names on an output, and the first assignment in order.

use super::site::SiteTrigger;
use crate::model::{Board, Fires, Output, OutputKind};
use std::collections::{BTreeMap, BTreeSet};

/// The most states that all questions of one site together may look at: a count, never the clock.
const STATES: usize = 300_000;

/// A trigger that must be put on an output, with the supply that feeds its item.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Demand {
    /// The trigger.
    pub(super) trigger: SiteTrigger,
    /// The supply that feeds its item.
    pub(super) supply: Option<usize>,
}

/// What an output carries so far.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
struct Carries {
    fires: Option<Fires>,
    supply: Option<usize>,
    nanoamperes: i64,
    names: BTreeSet<usize>,
}

/// The outputs of a board.
pub(super) struct Outputs<'a> {
    board: &'a Board,
    names: Vec<String>,
    /// For each output, the first that is like it in all that matters here.
    like: Vec<usize>,
    states: usize,
    /// Whether a question was given up for its size.
    pub(super) gave_up: bool,
    known: BTreeMap<Vec<Demand>, Option<u32>>,
}

/// What one of the outputs that are alike carries.
type OneCarries = (usize, Carries);

/// An assignment being tried.
struct Trial<'a> {
    demands: &'a [(&'a Demand, usize)],
    dead: BTreeSet<(usize, u32, Vec<OneCarries>)>,
    states: usize,
}

impl<'a> Outputs<'a> {
    /// The outputs of `board`, nothing on them.
    pub(super) fn new(board: &'a Board) -> Self {
        let outputs = &board.outputs;
        let like = (0..outputs.len()).map(|at| (0..at).find(|o| alike(&outputs[*o], &outputs[at])).unwrap_or(at));
        Self { board, names: Vec::new(), like: like.collect(), states: 0, gave_up: false, known: BTreeMap::new() }
    }

    /// The fewest trigger names beyond the first on an output, summed over outputs, with which all demands find an
    /// output; `None` when they don't. The order of the demands does not matter.
    pub(super) fn fewest_mixed(&mut self, mut demands: Vec<Demand>) -> Option<u32> {
        demands.sort_by(hardest_first);
        if let Some(known) = self.known.get(&demands) {
            return *known;
        }
        let fewest = self.search_fewest(&demands);
        self.known.insert(demands, fewest);
        fewest
    }

    /// Whether all demands find an output together.
    pub(super) fn can(&mut self, mut demands: Vec<Demand>) -> bool {
        demands.sort_by(hardest_first);
        self.assign(&demands, u32::try_from(demands.len()).unwrap_or(u32::MAX)).is_some()
    }

    /// The assignment that a finished choice gets: the first in order, or, where that takes too many states to find, one
    /// that is as good.
    pub(super) fn settle(&mut self, demands: &[Demand], mixed: u32) -> Vec<usize> {
        self.states = 0;
        if let Some(found) = self.assign(demands, mixed) {
            return found;
        }
        self.states = 0;
        let mut order: Vec<usize> = (0..demands.len()).collect();
        order.sort_by(|a, b| hardest_first(&demands[*a], &demands[*b]));
        let sorted: Vec<Demand> = order.iter().map(|at| demands[*at].clone()).collect();
        let found = self.assign(&sorted, mixed).unwrap_or_default();
        let mut outputs = vec![0; found.len()];
        for (at, output) in order.into_iter().zip(found) {
            outputs[at] = output;
        }
        outputs
    }

    /// Lowers the names on outputs step by step: most questions that fail, fail whatever the names.
    fn search_fewest(&mut self, demands: &[Demand]) -> Option<u32> {
        let mut names: Vec<(Fires, &str)> =
            demands.iter().map(|d| (d.trigger.fires, d.trigger.name.as_str())).collect();
        names.sort_unstable();
        names.dedup();
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let least = count(names.len()).saturating_sub(count(self.board.outputs.len()));
        let mut fewest = self.assign(demands, count(demands.len())).map(|found| mixed(demands, &found))?;
        while fewest > least {
            let Some(found) = self.assign(demands, fewest - 1) else { break };
            fewest = mixed(demands, &found);
        }
        Some(fewest)
    }

    /// The first assignment, in the order of demands and then of outputs, with at most `mixed` names beyond the first
    /// on an output.
    pub(super) fn assign(&mut self, demands: &[Demand], mixed: u32) -> Option<Vec<usize>> {
        let named: Vec<(&Demand, usize)> = demands.iter().map(|d| (d, self.name(&d.trigger.name))).collect();
        let mut carries = vec![Carries::default(); self.board.outputs.len()];
        let mut chosen = Vec::new();
        let mut trial = Trial { demands: &named, dead: BTreeSet::new(), states: self.states };
        let found = self.place(&mut trial, mixed, &mut carries, &mut chosen);
        self.states = trial.states;
        self.gave_up |= !found && self.states >= STATES;
        found.then_some(chosen)
    }

    fn name(&mut self, name: &str) -> usize {
        self.names.iter().position(|n| n == name).unwrap_or_else(|| {
            self.names.push(name.to_string());
            self.names.len() - 1
        })
    }

    fn place(&self, trial: &mut Trial<'_>, mixed: u32, carries: &mut [Carries], chosen: &mut Vec<usize>) -> bool {
        let at = chosen.len();
        let Some((demand, name)) = trial.demands.get(at).copied() else { return true };
        trial.states += 1;
        let state = (at, mixed, self.state(carries));
        if trial.states >= STATES || trial.dead.contains(&state) || !self.may_fit(&trial.demands[at..], mixed, carries)
        {
            return false;
        }
        for output in 0..carries.len() {
            // An output like an earlier one, carrying the same, would fail the same way.
            let tried = |other: usize| self.like[other] == self.like[output] && carries[other] == carries[output];
            if (self.like[output]..output).any(tried) {
                continue;
            }
            let Some((next, more)) = self.with(output, &carries[output], demand, name) else { continue };
            let Some(left) = mixed.checked_sub(more) else { continue };
            let before = std::mem::replace(&mut carries[output], next);
            chosen.push(output);
            if self.place(trial, left, carries, chosen) {
                return true;
            }
            chosen.pop();
            carries[output] = before;
        }
        trial.dead.insert(state);
        false
    }

    /// Whether nothing says at a glance that the rest can't be placed: for each way of firing the outputs that could
    /// still take it have the current left, and the names that are on no output yet find empty outputs or may be mixed.
    fn may_fit(&self, rest: &[(&Demand, usize)], mixed: u32, carries: &[Carries]) -> bool {
        let outputs = || self.board.outputs.iter().zip(carries);
        let mut new: Vec<(Fires, usize)> = Vec::new();
        for (demand, name) in rest {
            let fires = demand.trigger.fires;
            if !carries.iter().any(|c| c.fires == Some(fires) && c.names.contains(name)) {
                new.push((fires, *name));
            }
        }
        new.sort_unstable();
        new.dedup();
        let empty = carries.iter().filter(|c| c.fires.is_none()).count();
        if new.len() > empty + usize::try_from(mixed).unwrap_or(usize::MAX) {
            return false;
        }
        ALL_FIRES.into_iter().all(|fires| {
            let wanted: i64 = rest
                .iter()
                .filter(|(d, _)| d.trigger.fires == fires)
                .map(|(d, _)| d.trigger.nanoamperes)
                .fold(0, i64::saturating_add);
            let room = |(output, carried): (&Output, &Carries)| {
                let open = carried.fires.is_none_or(|f| f == fires) && output.contact_for(fires).is_some();
                match output.limit {
                    _ if !open => 0,
                    None => i64::MAX / 1024,
                    Some(limit) => limit.nanoamperes().saturating_add(1) - carried.nanoamperes,
                }
            };
            wanted == 0 || wanted <= outputs().map(room).fold(0, i64::saturating_add)
        })
    }

    /// What the outputs carry, whichever of those that are alike carries it.
    fn state(&self, carries: &[Carries]) -> Vec<OneCarries> {
        let mut state: Vec<OneCarries> = self.like.iter().copied().zip(carries.iter().cloned()).collect();
        state.sort_unstable();
        state
    }

    /// What an output carries with one more trigger, and how many names beyond the first that adds.
    fn with(&self, output: usize, now: &Carries, demand: &Demand, name: usize) -> Option<(Carries, u32)> {
        let out = self.board.outputs.get(output)?;
        let fires = demand.trigger.fires;
        out.contact_for(fires)?;
        if now.fires.is_some_and(|f| f != fires) {
            return None;
        }
        let relay = matches!(out.kind, OutputKind::Relay { .. });
        if relay && now.fires.is_some() && now.supply != demand.supply {
            return None;
        }
        let nanoamperes = now.nanoamperes.saturating_add(demand.trigger.nanoamperes);
        // A limit holds with 1e-9 A to spare.
        if out.limit.is_some_and(|limit| nanoamperes > limit.nanoamperes().saturating_add(1)) {
            return None;
        }
        let mut names = now.names.clone();
        let more = u32::from(names.insert(name) && !now.names.is_empty());
        let supply = if relay { demand.supply } else { None };
        Some((Carries { fires: Some(fires), supply, nanoamperes, names }, more))
    }
}

/// Every way of firing.
const ALL_FIRES: [Fires; 4] =
    [Fires::NegativeApplied, Fires::NegativeRemoved, Fires::PositiveApplied, Fires::PositiveRemoved];

/// One order for all questions about the same demands, the largest current of each kind first.
fn hardest_first(a: &Demand, b: &Demand) -> std::cmp::Ordering {
    let key = |d: &Demand| (d.trigger.fires, d.supply, std::cmp::Reverse(d.trigger.nanoamperes));
    key(a).cmp(&key(b)).then_with(|| a.trigger.name.cmp(&b.trigger.name))
}

/// Whether two outputs can do the same.
fn alike(a: &Output, b: &Output) -> bool {
    let relay = |output: &Output| matches!(output.kind, OutputKind::Relay { .. });
    let can = |output: &Output| ALL_FIRES.map(|fires| output.contact_for(fires).is_some());
    let limit = |output: &Output| output.limit.map(crate::units::Amps::nanoamperes);
    relay(a) == relay(b) && can(a) == can(b) && limit(a) == limit(b)
}

/// The names beyond the first on an output, summed over outputs.
fn mixed(demands: &[Demand], outputs: &[usize]) -> u32 {
    let on: BTreeSet<(usize, &str)> =
        outputs.iter().copied().zip(demands.iter().map(|d| d.trigger.name.as_str())).collect();
    let used: BTreeSet<usize> = outputs.iter().copied().collect();
    u32::try_from(on.len() - used.len()).unwrap_or(u32::MAX)
}
