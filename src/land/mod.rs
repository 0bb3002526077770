//! From a choice to screws: which core of which colour lands on which terminal, and which supply cores are doubled.

mod colours;
mod doubling;
mod lengths;
mod measured;
mod screws;
mod types;
pub mod volts;

use crate::choose::{Choice, own_functions};
use crate::model::{Function, Job};
use colours::{Cores, Given};
use screws::Screws;

pub use lengths::{lengths, ohms_per_metre, ohms_per_metre_at};
pub use measured::{MeasuredPair, measured_pairs, worked_from};
pub use types::{
    CableLength, Plan, PlannedCable, PlannedCore, PlannedItem, PlannedLoop, PlannedTrigger, SupplyPair, To,
};

/// Lands a choice: gives every core of every cable its place.
#[must_use]
pub fn land(job: &Job<'_>, choice: Choice) -> Plan {
    let lengths = lengths(job);
    let mut cores = colours::give(job, &choice);
    doubling::double(&mut cores, &lengths);
    let loops = screws::loops(job, &choice);
    let screws = Screws { job, choice: &choice, loops: &loops, pairs: &cores.pairs };
    let core_of = |item: usize, function: &Function| {
        let chosen = choice.items.get(item)?.as_ref().ok()?;
        own_core(&cores.given[chosen.cable], item, function)
    };
    let triggers = screws.triggers(core_of);
    let cables = job.cables.iter().enumerate().map(|(c, cable)| {
        let given = cable.cores.iter().zip(&cores.given[c]).enumerate();
        let planned = given.map(|(k, (core, given))| PlannedCore {
            colour: core.colour.to_string(),
            function: given.as_ref().map_or(Function::Spare, |g| g.function.clone()),
            from: core.on.word(),
            to: screws.to(c, k, core, given.as_ref()),
            items: given.as_ref().map(|g| g.items.clone()).unwrap_or_default(),
            kept: given.as_ref().is_some_and(|g| g.kept),
            doubled: given.as_ref().is_some_and(|g| g.doubled),
        });
        PlannedCable { cores: planned.collect() }
    });
    let cables = cables.collect();
    let items = items(job, &choice, &cores);
    Plan { items, cables, pairs: cores.pairs, triggers, loops, lengths, choice }
}

/// The core of a cable that an item alone has for a function.
fn own_core(given: &[Option<Given>], item: usize, function: &Function) -> Option<usize> {
    given.iter().position(|g| g.as_ref().is_some_and(|g| g.function == *function && g.items.contains(&item)))
}

/// The served items with their cores in the order supply+, supply−, contacts, triggers, bus.
fn items(job: &Job<'_>, choice: &Choice, cores: &Cores<'_, '_>) -> Vec<PlannedItem> {
    let mut items = Vec::new();
    for (index, (item, chosen)) in job.items.iter().zip(&choice.items).enumerate() {
        let Ok(chosen) = chosen else { continue };
        let given = &cores.given[chosen.cable];
        let supply = |function: Function| {
            let all = given.iter().enumerate();
            all.filter(move |(_, g)| g.as_ref().is_some_and(|g| g.function == function && g.items.contains(&index)))
                .map(|(k, _)| k)
        };
        let own = own_functions(item, chosen.method);
        let mut own_cores: Vec<usize> =
            supply(Function::SupplyPositive).chain(supply(Function::SupplyNegative)).collect();
        own_cores.extend(own.iter().filter_map(|f| own_core(given, index, f)));
        items.push(PlannedItem {
            item: index,
            cable: chosen.cable,
            method: chosen.method,
            input: chosen.input,
            cores: own_cores,
            spare: cores.free(chosen.cable).next(),
        });
    }
    items
}
