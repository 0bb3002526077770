//! What leaves volts at the far end not known.

use super::super::case::Case;
use super::blank::{Blank, CARD, of_alarm, of_cable, of_source, of_triggers, or_itself};
use super::devices::window;
use crate::work::Drop;

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    let unknown = case.figures.drops.iter().filter(|d| d.ok.is_none());
    unknown.flat_map(|drop| or_itself(of_drop(case, drop), case.item(drop.item))).collect()
}

fn of_drop(case: &Case<'_>, drop: &Drop) -> Vec<Blank> {
    let mut found = of_cable(case, drop.cable);
    found.extend(source_volts(case));
    found.extend(case.job.items.get(drop.item).and_then(window));
    let alone = [drop.item];
    let fed = case.plan.pair_of(drop.item).map_or(&alone[..], |p| p.items.as_slice());
    for item in fed.iter().filter_map(|i| case.job.items.get(*i)) {
        found.extend(of_alarm(item.name(), item.device));
        found.extend(of_triggers(item.name(), item.device));
    }
    found
}

/// The blank of the source's volts on mains.
pub(super) fn source_volts(case: &Case<'_>) -> Option<Blank> {
    let blank = of_source(case);
    if blank.is_some() {
        return blank;
    }
    let source = case.job.source.as_ref()?;
    source.block?.volts.is_none().then(|| Blank::blocker(&source.unit.id, "its volts on mains", CARD))
}
