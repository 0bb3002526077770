//! The fuses on the way: the source's at its output and at its battery, and those of the board's supplies.

use super::super::Loading;
use super::super::draws::{self, When};
use super::{row, supplies};
use crate::formula::fuse;
use crate::formula::sum::{Part, worked_sum};
use crate::land::Plan;
use crate::model::{Job, PowerSource, StandbyBattery};
use crate::units::Amps;

/// What a fuse guards.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Guards {
    /// The source's output: all that it feeds.
    Output,
    /// The source's battery: its own drain and all that it feeds.
    Battery,
    /// This supply of the board.
    Supply(usize),
}

/// A fuse that carries current of this job.
struct Guard<'a> {
    /// `panel`, `board` or `supply`: whose card has it.
    word: &'static str,
    /// Its mark.
    mark: &'a str,
    /// What it may carry.
    rating: Option<Amps>,
    /// All that it guards, in the order of the places where the cards name it.
    guards: Vec<Guards>,
}

/// A row for each distinct fuse: the source's output fuse, its battery fuse, then those of the board's supplies.
pub(super) fn rows(job: &Job<'_>, plan: &Plan) -> Vec<Loading> {
    fuses(job).into_iter().map(|fuse| fuse_row(job, plan, &fuse)).collect()
}

/// Every fuse that a card names on the way, once.
fn fuses<'a>(job: &'a Job<'_>) -> Vec<Guard<'a>> {
    let mut all: Vec<Guard<'a>> = Vec::new();
    if let Some(source) = job.source.as_ref() {
        let rating = |mark: &str| source.unit.fuse(mark).and_then(|fuse| fuse.rating);
        for (mark, guards) in of_source(source) {
            add(&mut all, Guard { word: source.word(), mark, rating: rating(mark), guards: vec![guards] });
        }
    }
    for (index, supply) in job.board.supplies.iter().enumerate() {
        if let Some(mark) = supply.fuse.as_deref() {
            let rating = job.board.unit.fuse(mark).and_then(|fuse| fuse.rating);
            add(&mut all, Guard { word: "board", mark, rating, guards: vec![Guards::Supply(index)] });
        }
    }
    all
}

/// The source's fuses: at its output, and at its battery.
fn of_source<'a>(source: &PowerSource<'a>) -> Vec<(&'a str, Guards)> {
    let Some(block) = source.block else { return Vec::new() };
    let battery: Option<&StandbyBattery> = block.battery.get();
    let output = block.fuse.as_deref().map(|mark| (mark, Guards::Output));
    let battery = battery.and_then(|b| b.fuse.as_deref()).map(|mark| (mark, Guards::Battery));
    output.into_iter().chain(battery).collect()
}

/// Adds a fuse, or to the same fuse what else it guards.
fn add<'a>(all: &mut Vec<Guard<'a>>, fuse: Guard<'a>) {
    match all.iter_mut().find(|known| known.word == fuse.word && known.mark == fuse.mark) {
        Some(known) => known.guards.extend(fuse.guards),
        None => all.push(fuse),
    }
}

/// The row of a fuse; its rating holds at rest and in alarm.
fn fuse_row(job: &Job<'_>, plan: &Plan, fuse: &Guard<'_>) -> Loading {
    let rating = fuse.rating.map(Amps::get);
    let standby = worked_sum(parts(job, plan, &fuse.guards, When::Rest));
    let alarm = worked_sum(parts(job, plan, &fuse.guards, When::Alarm));
    let near = is_near([standby.value, alarm.value], rating);
    let what = format!("fuse:{}:{}", fuse.word, fuse.mark);
    Loading { near, ..row(what, standby, alarm, rating, rating) }
}

/// What a fuse carries. Some supplies of the board: their sum; the battery alone: the source's own drain too; any two
/// places else: all that the source feeds.
fn parts(job: &Job<'_>, plan: &Plan, guards: &[Guards], when: When) -> Vec<Part> {
    let of_supplies: Option<Vec<Part>> = guards
        .iter()
        .map(|guard| match guard {
            Guards::Supply(index) => Some(supplies::parts(job, plan, *index, when)),
            Guards::Output | Guards::Battery => None,
        })
        .collect::<Option<Vec<_>>>()
        .map(|parts| parts.into_iter().flatten().collect());
    if let Some(parts) = of_supplies {
        return parts;
    }
    let mut parts = draws::of_source(job, plan, when);
    if guards == [Guards::Battery] {
        parts.insert(0, draws::own(job));
    }
    parts
}

/// Whether the larger of the known currents is over three quarters of the rating, and not over the rating.
fn is_near(amps: [Option<f64>; 2], rating: Option<f64>) -> bool {
    let Some(rating) = rating else { return false };
    let largest = amps.into_iter().flatten().fold(0.0, f64::max);
    fuse::is_near(largest, rating)
}
