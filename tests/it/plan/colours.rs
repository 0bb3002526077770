//! Which core has which function before any is doubled, by the colour rule of section 5.1.

use super::options::{Need, needs, own_core, rail_core};
use std::collections::{BTreeMap, BTreeSet};
use wirelore::choose::{Choice, Chosen, Method};
use wirelore::model::{Function, Item, Job, Returns};

/// What a core is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Use {
    pub(crate) function: Function,
    /// The items that use it, in order.
    pub(crate) items: Vec<usize>,
    /// The board supply, for a supply core.
    pub(crate) supply: Option<usize>,
    /// Whether its far end stays as it is.
    pub(crate) kept: bool,
}

/// For each cable, what each of its cores is for.
pub(crate) type Cores = Vec<Vec<Option<Use>>>;

/// The cores of a choice.
pub(crate) fn colours(job: &Job<'_>, choice: &Choice) -> Cores {
    let mut colours = Colours {
        job,
        choice,
        needs: needs(job),
        cores: job.cables.iter().map(|cable| vec![None; cable.cores.len()]).collect(),
        given: BTreeMap::new(),
    };
    for keeping in [true, false] {
        for (item, chosen) in choice.items.iter().enumerate() {
            if let Ok(chosen) = chosen {
                colours.item(item, chosen, keeping);
            }
        }
    }
    colours.cores
}

/// The functions of an item's own cores, contacts first, then triggers, then data.
pub(crate) fn own_functions(item: &Item<'_>, chosen: &Chosen) -> Vec<Function> {
    let mut own = Vec::new();
    if !matches!(chosen.method, Method::TamperOnly | Method::None) {
        own.extend([Function::Alarm, Function::AlarmReturn]);
    }
    if chosen.in_tamper_loop {
        own.push(Function::Tamper);
        own.extend((item.device.tamper_returns() == Some(Returns::Pair)).then_some(Function::TamperReturn));
    }
    own.extend(item.device.triggers.iter().map(|t| Function::Trigger(t.trigger.clone())));
    own.extend((1..=item.device.data).map(Function::Data));
    own
}

struct Colours<'a> {
    job: &'a Job<'a>,
    choice: &'a Choice,
    needs: Vec<Need>,
    cores: Cores,
    given: BTreeMap<Function, BTreeSet<&'a str>>,
}

impl Colours<'_> {
    /// Keeps the item's surveyed cores, or gives it those that it lacks.
    fn item(&mut self, item: usize, chosen: &Chosen, keeping: bool) {
        let job = self.job;
        if keeping && !job.items[item].keep() {
            return;
        }
        for polarity in [0, 1] {
            if self.needs[item].rails[polarity] {
                self.rail(item, chosen, polarity, keeping);
            }
        }
        for function in own_functions(&job.items[item], chosen) {
            let own = own_core(job, &job.items[item], chosen.cable, &function);
            let kept = own.filter(|_| job.items[item].keep());
            match (keeping, kept) {
                (true, Some(core)) => self.give(chosen.cable, core, item, function, true),
                (false, None) => self.give_free(chosen.cable, item, function),
                _ => {}
            }
        }
    }

    fn rail(&mut self, item: usize, chosen: &Chosen, polarity: usize, keeping: bool) {
        let function = if polarity == 0 { Function::SupplyPositive } else { Function::SupplyNegative };
        let is_there = |core: &&Use| core.function == function && core.supply == chosen.supply;
        if self.cores[chosen.cable].iter().flatten().any(|core| is_there(&core)) {
            return;
        }
        let surveyed =
            rail_core(self.job, chosen.cable, polarity == 0).filter(|core| self.cores[chosen.cable][*core].is_none());
        match (keeping, surveyed) {
            (true, Some(core)) => self.give(chosen.cable, core, item, function, true),
            (false, _) => self.give_free(chosen.cable, item, function),
            (true, None) => {}
        }
    }

    /// "A free colour that has that function on a kept core of this site or was given it already, else the first
    /// free in cable order."
    fn give_free(&mut self, cable: usize, item: usize, function: Function) {
        let cores = &self.job.cables[cable].cores;
        let free = |k: &usize| cores[*k].usable && self.cores[cable][*k].is_none();
        let usual = |k: &usize| self.given.get(&function).is_some_and(|colours| colours.contains(cores[*k].colour));
        let all = || (0..cores.len()).filter(free);
        if let Some(core) = all().find(usual).or_else(|| all().next()) {
            self.give(cable, core, item, function, false);
        }
    }

    fn give(&mut self, cable: usize, core: usize, item: usize, function: Function, kept: bool) {
        let job = self.job;
        let chosen = |item: usize| self.choice.items[item].as_ref().ok();
        let supply = chosen(item).and_then(|c| c.supply).filter(|_| function.is_supply());
        let polarity = usize::from(function == Function::SupplyNegative);
        let shares = |other: &usize| {
            let alike = chosen(*other).is_some_and(|c| c.cable == cable && c.supply == supply);
            function.is_supply() && alike && self.needs[*other].rails[polarity]
        };
        let items = (0..self.needs.len()).filter(|other| *other == item || shares(other)).collect();
        self.given.entry(function.clone()).or_default().insert(job.cables[cable].cores[core].colour);
        self.cores[cable][core] = Some(Use { function, items, supply, kept });
    }
}
