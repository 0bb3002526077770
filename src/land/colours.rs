//! Which core of which colour serves what: kept items keep theirs, the rest get the first that fits the site's habit.

use super::SupplyPair;
use crate::choose::{Choice, Chosen, own_functions, supply_needs};
use crate::model::{Function, Item, Job};

/// What a core was given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Given {
    pub(super) function: Function,
    pub(super) items: Vec<usize>,
    pub(super) kept: bool,
    pub(super) doubled: bool,
}

/// The cores of a site while they are given out.
pub(super) struct Cores<'j, 'a> {
    pub(super) job: &'j Job<'a>,
    /// For each cable, what each of its cores was given.
    pub(super) given: Vec<Vec<Option<Given>>>,
    /// The supply pairs, by cable and then by supply.
    pub(super) pairs: Vec<SupplyPair>,
    /// The colours that have a function already, on kept cores or given earlier.
    habits: Vec<(String, Function)>,
}

/// The two sides of a supply pair, in the order in which they are given.
const SIDES: [Function; 2] = [Function::SupplyPositive, Function::SupplyNegative];

/// Gives every served item its cores.
pub(super) fn give<'j, 'a>(job: &'j Job<'a>, choice: &Choice) -> Cores<'j, 'a> {
    let given = job.cables.iter().map(|cable| vec![None; cable.cores.len()]).collect();
    let mut cores = Cores { job, given, pairs: Vec::new(), habits: Vec::new() };
    let served: Vec<(usize, &Item<'_>, &Chosen)> = job
        .items
        .iter()
        .zip(&choice.items)
        .enumerate()
        .filter_map(|(i, (item, chosen))| Some((i, item, chosen.as_ref().ok()?)))
        .collect();
    cores.lay_out_pairs(&served);
    for (index, item, chosen) in served.iter().filter(|(_, item, _)| item.keep()) {
        cores.keep(*index, item, chosen);
    }
    for (index, item, chosen) in &served {
        cores.complete(*index, item, chosen);
    }
    cores
}

impl Cores<'_, '_> {
    /// The pairs there will be, no core in them yet.
    fn lay_out_pairs(&mut self, served: &[(usize, &Item<'_>, &Chosen)]) {
        for (index, _, chosen) in served {
            let Some(supply) = chosen.supply else { continue };
            match self.pairs.iter_mut().find(|p| p.cable == chosen.cable && p.supply == supply) {
                Some(pair) => pair.items.push(*index),
                None => self.pairs.push(SupplyPair {
                    cable: chosen.cable,
                    supply,
                    positive: Vec::new(),
                    negative: Vec::new(),
                    items: vec![*index],
                }),
            }
        }
        self.pairs.sort_by_key(|p| (p.cable, p.supply));
    }

    /// Leaves a kept item on the cores that have their function already.
    fn keep(&mut self, index: usize, item: &Item<'_>, chosen: &Chosen) {
        for (side, function) in SIDES.iter().enumerate() {
            if supply_needs(item)[side]
                && self.side(chosen, side).is_some_and(|cores| cores.is_empty())
                && let Some(core) = self.stays(chosen.cable, item, function)
            {
                self.take_side(chosen, side, core, true, false);
            }
        }
        for function in own_functions(item, chosen.method) {
            if let Some(core) = self.stays(chosen.cable, item, &function) {
                self.take(chosen.cable, core, Given { function, items: vec![index], kept: true, doubled: false });
            }
        }
    }

    /// Gives an item the cores that it still lacks.
    fn complete(&mut self, index: usize, item: &Item<'_>, chosen: &Chosen) {
        for (side, function) in SIDES.iter().enumerate() {
            if supply_needs(item)[side]
                && self.side(chosen, side).is_some_and(|cores| cores.is_empty())
                && let Some(core) = self.pick(chosen.cable, function)
            {
                self.take_side(chosen, side, core, false, false);
            }
        }
        for function in own_functions(item, chosen.method) {
            let has = |given: &Option<Given>| {
                given.as_ref().is_some_and(|g| g.function == function && g.items.contains(&index))
            };
            if self.given[chosen.cable].iter().any(has) {
                continue;
            }
            if let Some(core) = self.pick(chosen.cable, &function) {
                self.take(chosen.cable, core, Given { function, items: vec![index], kept: false, doubled: false });
            }
        }
    }

    /// The core that has this function for a kept item today, if it is usable and not given away.
    fn stays(&self, cable: usize, item: &Item<'_>, function: &Function) -> Option<usize> {
        let core = self.job.core_today(cable, item.name(), function)?;
        (self.job.cables[cable].cores[core].usable && self.given[cable][core].is_none()).then_some(core)
    }

    /// The usable core of a cable that nobody has yet and that fits the site's habit, else the first of these.
    pub(super) fn pick(&self, cable: usize, function: &Function) -> Option<usize> {
        let free = || self.free(cable);
        let habit = |core: &usize| {
            let colour = self.job.cables[cable].cores[*core].colour;
            self.habits.iter().any(|(c, f)| c == colour && f == function)
        };
        free().find(habit).or_else(|| free().next())
    }

    /// The usable cores of a cable that nobody has, in cable order.
    pub(super) fn free(&self, cable: usize) -> impl Iterator<Item = usize> {
        let cores = self.job.cables[cable].cores.iter().zip(&self.given[cable]).enumerate();
        cores.filter(|(_, (core, given))| core.usable && given.is_none()).map(|(k, _)| k)
    }

    fn take(&mut self, cable: usize, core: usize, given: Given) {
        let colour = self.job.cables[cable].cores[core].colour.to_string();
        self.habits.push((colour, given.function.clone()));
        self.given[cable][core] = Some(given);
    }

    /// The cores of one side of the pair that feeds a chosen item.
    fn side(&mut self, chosen: &Chosen, side: usize) -> Option<&mut Vec<usize>> {
        let supply = chosen.supply?;
        let pair = self.pairs.iter_mut().find(|p| p.cable == chosen.cable && p.supply == supply)?;
        Some(if side == 0 { &mut pair.positive } else { &mut pair.negative })
    }

    fn take_side(&mut self, chosen: &Chosen, side: usize, core: usize, kept: bool, doubled: bool) {
        let Some(supply) = chosen.supply else { return };
        let Some(pair) = self.pairs.iter().position(|p| p.cable == chosen.cable && p.supply == supply) else { return };
        self.take_pair_side(pair, side, core, kept, doubled);
    }

    /// Puts a core on one side of a pair, for all items that need that side.
    pub(super) fn take_pair_side(&mut self, pair: usize, side: usize, core: usize, kept: bool, doubled: bool) {
        let cable = self.pairs[pair].cable;
        let needing = self.pairs[pair].items.iter().copied().filter(|i| supply_needs(&self.job.items[*i])[side]);
        let given = Given { function: SIDES[side].clone(), items: needing.collect(), kept, doubled };
        self.take(cable, core, given);
        let cores = if side == 0 { &mut self.pairs[pair].positive } else { &mut self.pairs[pair].negative };
        cores.push(core);
        cores.sort_unstable();
    }
}
