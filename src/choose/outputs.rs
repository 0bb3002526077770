//! Which output fires what: feasibility, the fewest names on an output, and the first assignment in order.

use super::site::SiteTrigger;
use crate::model::{Board, Fires, OutputKind};
use std::collections::{BTreeMap, BTreeSet};

/// The most states that one question may look at.
const STATES: usize = 200_000;

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
    /// Whether a question was given up for its size.
    pub(super) gave_up: bool,
    known: BTreeMap<Vec<Demand>, Option<u32>>,
}

/// An assignment being tried.
struct Trial<'a> {
    demands: &'a [(&'a Demand, usize)],
    dead: BTreeSet<(usize, u32, Vec<Carries>)>,
    states: usize,
}

impl<'a> Outputs<'a> {
    /// The outputs of `board`, nothing on them.
    pub(super) fn new(board: &'a Board) -> Self {
        Self { board, names: Vec::new(), gave_up: false, known: BTreeMap::new() }
    }

    /// The fewest trigger names beyond the first on an output, summed over outputs, with which all demands find an
    /// output; `None` when they don't. The order of the demands does not matter.
    pub(super) fn fewest_mixed(&mut self, mut demands: Vec<Demand>) -> Option<u32> {
        demands.sort();
        if let Some(known) = self.known.get(&demands) {
            return *known;
        }
        let most = u32::try_from(demands.len()).unwrap_or(u32::MAX);
        // With no bound on the names first: most questions that fail, fail whatever the names.
        let fewest = match self.assign(&demands, most) {
            None => None,
            Some(_) => (0..=most).find(|mixed| self.assign(&demands, *mixed).is_some()),
        };
        self.known.insert(demands, fewest);
        fewest
    }

    /// The first assignment, in the order of demands and then of outputs, with at most `mixed` names beyond the first
    /// on an output.
    pub(super) fn assign(&mut self, demands: &[Demand], mixed: u32) -> Option<Vec<usize>> {
        let named: Vec<(&Demand, usize)> = demands.iter().map(|d| (d, self.name(&d.trigger.name))).collect();
        let mut carries = vec![Carries::default(); self.board.outputs.len()];
        let mut chosen = Vec::new();
        let mut trial = Trial { demands: &named, dead: BTreeSet::new(), states: 0 };
        let found = self.place(&mut trial, mixed, &mut carries, &mut chosen);
        if trial.states >= STATES {
            self.gave_up = true;
        }
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
        if trial.states >= STATES || trial.dead.contains(&(at, mixed, carries.to_vec())) {
            return false;
        }
        for output in 0..carries.len() {
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
        trial.dead.insert((at, mixed, carries.to_vec()));
        false
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
