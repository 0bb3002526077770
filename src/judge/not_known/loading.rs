//! What leaves a row of the loading table not known.

use super::super::case::Case;
use super::blank::{Blank, CARD, of_currents, of_source, of_triggers, or_itself};
use crate::model::Unit;
use crate::work::Loading;

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    let unknown = case.figures.loading.iter().filter(|row| row.ok.is_none());
    unknown.flat_map(|row| or_itself(of_row(case, row), &row.what)).collect()
}

fn of_row(case: &Case<'_>, row: &Loading) -> Vec<Blank> {
    match row.what.split_once(':') {
        None => of_whole_source(case, row),
        Some(("supply", name)) => of_supply(case, row, name),
        Some(("output", name)) => of_output(case, row, name),
        Some(("core", name)) => of_core(case, name),
        Some((_, fuse)) => of_fuse(case, row, fuse),
    }
}

/// The blank of what a row may carry.
fn limit(row: &Loading, about: &str, what: &str) -> Option<Blank> {
    row.limit.is_none().then(|| Blank::blocker(about, what, CARD))
}

fn of_whole_source(case: &Case<'_>, row: &Loading) -> Vec<Blank> {
    let mut found = of_fed(case);
    let source = case.job.source.as_ref().filter(|s| s.block.is_some());
    found.extend(source.and_then(|s| limit(row, &s.unit.id, "what it can give")));
    found
}

/// The blanks of all that the source feeds outside itself.
pub(super) fn of_fed(case: &Case<'_>) -> Vec<Blank> {
    let mut found: Vec<Blank> = of_source(case).into_iter().collect();
    found.extend(case.plan.items.iter().flat_map(|p| of_currents(case, p.item)));
    if !case.board_feeds() {
        found.extend(of_board(case));
    }
    for load in &case.job.survey.loads {
        if load.standby.is_none() || load.alarm.is_none() {
            found.push(Blank::blocker(&load.name, "what it draws", LOAD));
        }
    }
    found
}

const LOAD: &str = "Put a meter in its supply, and write it in the survey.";

/// The blanks of what the board draws.
fn of_board(case: &Case<'_>) -> Option<Blank> {
    let feed = case.job.board.feed.as_ref();
    let unknown = feed.is_none_or(|f| f.standby.is_none() || f.alarm.is_none());
    unknown.then(|| Blank::blocker(&case.job.board.unit.id, "what it draws", CARD))
}

/// The blank of what the source draws itself.
pub(super) fn of_own(case: &Case<'_>) -> Option<Blank> {
    let source = case.job.source.as_ref()?;
    source.block?.own.is_none().then(|| Blank::blocker(&source.unit.id, "its own drain", CARD))
}

fn of_supply(case: &Case<'_>, row: &Loading, name: &str) -> Vec<Blank> {
    let supply = case.job.board.supplies.iter().position(|s| s.supply == name);
    let mut found: Vec<Blank> = supply.into_iter().flat_map(|s| of_fed_by(case, s)).collect();
    found.extend(limit(row, &case.job.board.unit.id, &format!("what its supply {name} can give")));
    found
}

/// The blanks of the items that a board supply feeds.
fn of_fed_by(case: &Case<'_>, supply: usize) -> Vec<Blank> {
    let fed =
        |item: &usize| matches!(case.plan.choice.items.get(*item), Some(Ok(chosen)) if chosen.supply == Some(supply));
    case.plan.items.iter().map(|p| p.item).filter(fed).flat_map(|item| of_currents(case, item)).collect()
}

fn of_output(case: &Case<'_>, row: &Loading, name: &str) -> Vec<Blank> {
    let output = case.job.board.outputs.iter().position(|o| o.output == name);
    let fired = case.plan.triggers.iter().filter(|t| Some(t.output) == output);
    let items = fired.filter_map(|t| case.job.items.get(t.item));
    let mut found: Vec<Blank> = items.flat_map(|i| of_triggers(i.name(), i.device)).collect();
    found.extend(limit(row, &case.job.board.unit.id, &format!("what its output {name} can carry")));
    found
}

fn of_core(case: &Case<'_>, cable: &str) -> Vec<Blank> {
    let there = case.plan.items.iter().filter(|p| case.cable(p.cable) == cable);
    there.flat_map(|p| of_currents(case, p.item)).collect()
}

fn of_fuse(case: &Case<'_>, row: &Loading, fuse: &str) -> Vec<Blank> {
    let Some((word, mark)) = fuse.split_once(':') else { return Vec::new() };
    let source = case.job.source.as_ref().filter(|s| s.word() == word);
    let unit: &Unit = source.map_or(&case.job.board.unit, |s| s.unit);
    let mut found: Vec<Blank> = limit(row, &unit.id, &format!("the rating of its fuse {mark}")).into_iter().collect();
    let block = source.and_then(|s| s.block);
    let of_battery = block.and_then(|b| b.battery.get()).and_then(|b| b.fuse.as_deref()) == Some(mark);
    if of_battery {
        found.extend(of_own(case));
    }
    if of_battery || block.and_then(|b| b.fuse.as_deref()) == Some(mark) {
        found.extend(of_fed(case));
        return found;
    }
    let supplies = case.job.board.supplies.iter().enumerate();
    let guarded = supplies.filter(|(_, s)| s.fuse.as_deref() == Some(mark));
    found.extend(guarded.flat_map(|(s, _)| of_fed_by(case, s)));
    found
}
