//! Volts at the far end, item by item.

use super::{Case, Measure, Must, Stage};
use crate::land::{PlannedItem, SupplyPair};
use crate::model::Function;
use crate::pack::electrics::DropRow;
use crate::pack::names::{CoreName, cable_name};

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "Cores of the supplies on, sounders not connected yet. At the device, its lid open: one cable after the \
         other."
            .to_string(),
        "The figure is the lowest that may be read, with all that the cable feeds in alarm; at rest a little more is \
         right."
            .to_string(),
    ];
    Stage::new("Volts at the far end", how, rows(case, false))
}

/// A row for each item that is fed: those that are fired, or the others.
pub(super) fn rows(case: &Case, fired: bool) -> Vec<Measure> {
    let pairs = case.figures.drops.iter().zip(&case.electrics.drops);
    let wanted = pairs
        .filter(|(drop, _)| case.job.items.get(drop.item).is_some_and(|item| item.device.triggers.is_empty() != fired));
    wanted.map(|(drop, row)| one(case, drop.item, row, fired)).collect()
}

fn one(case: &Case, item: usize, row: &DropRow, fired: bool) -> Measure {
    let all = format!("mains on; everything on {} in alarm", row.cable);
    let state = if fired { format!("{all}, fired from the ground") } else { all };
    let mut must = Must::words(text(row), "V");
    must.expected = row.mains.value;
    must.low = row.needs_low.value;
    must.high = row.needs_high.value;
    let must = must.held(row.needs_low.value, row.needs_high.value);
    Measure::new(&row.item, format!("volts at {}", row.item))
        .when(state)
        .at(probes(case, item))
        .reads(must)
        .judged(row.ok)
}

/// The figure with the device's window.
fn text(row: &DropRow) -> String {
    let about = if row.mains.value.is_some() { format!("{} or more", row.mains.text) } else { row.mains.text.clone() };
    let window = match (row.needs_low.value, row.needs_high.value) {
        (Some(_), Some(_)) => format!("never outside {} to {}", row.needs_low.text, row.needs_high.text),
        _ => "the device's window is not known".to_string(),
    };
    format!("{about}; {window}")
}

/// The cores at the item's own end.
fn probes(case: &Case, item: usize) -> String {
    let (Some(planned), Some(pair)) = (case.plan.item(item), case.plan.pair_of(item)) else {
        return "at the item".into();
    };
    let cable = cable_name(case.job, pair.cable);
    let positive = side(case, planned, pair, &pair.positive);
    let negative = side(case, planned, pair, &pair.negative);
    format!("at the item: {cable} {positive} (+) and {cable} {negative} (−)")
}

/// The cores of one side; for a two-wire sounder, whose other wire is its trigger's, that one.
fn side(case: &Case, planned: &PlannedItem, pair: &SupplyPair, cores: &[usize]) -> String {
    if cores.is_empty() {
        return named(case, pair.cable, &triggers(case, planned));
    }
    named(case, pair.cable, cores)
}

/// The trigger cores of an item.
fn triggers(case: &Case, planned: &PlannedItem) -> Vec<usize> {
    let cores = case.plan.cables.get(planned.cable).map_or(&[][..], |c| c.cores.as_slice());
    let fires = |k: &usize| cores.get(*k).is_some_and(|c| matches!(c.function, Function::Trigger(_)));
    planned.cores.iter().copied().filter(fires).collect()
}

fn named(case: &Case, cable: usize, cores: &[usize]) -> String {
    let all = case.plan.cables.get(cable).map_or(&[][..], |c| c.cores.as_slice());
    let names: Vec<String> =
        cores.iter().filter_map(|k| all.get(*k)).map(|c| CoreName::new(&c.colour).text()).collect();
    names.join(" with ")
}
