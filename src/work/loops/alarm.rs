//! Alarm loops: closed, with one resistor, with two.

use super::super::StateFigure;
use super::parts::{Corner, alarm_series, given_cables, given_resistor, given_series, tamper_series};
use super::state;
use crate::formula::{Given, Worked, loops};
use crate::land::Plan;
use crate::model::{Board, Job, LoopState, Wiring};

/// A closed loop: normal `c + s`, alarm open. Shared loops are in series: the sum.
pub(super) fn closed(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<StateFigure> {
    let wiring = Wiring::ClosedLoop;
    let at = |corner: Corner| Some(loops::closed(corner.cables(job, plan, items)?, alarm_series(job, items)));
    let mut given = given_cables(job, plan, items);
    given.extend(given_series(job, items, "s", false));
    let normal = Worked::new("sum of 2·r·L + s", given, at(Corner::Nominal));
    vec![
        state::closed(job.board, wiring, LoopState::Normal, normal, at),
        state::open(job.board, wiring, LoopState::Alarm),
    ]
}

/// One end-of-line resistor: normal `E + c + s`, alarm open, short 0.
pub(super) fn single(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<StateFigure> {
    let wiring = Wiring::SingleEol;
    let eol = &job.board.eol;
    let at = |corner: Corner| {
        let end = corner.resistor(eol.single, eol.tolerance)?;
        Some(loops::single(end, corner.cables(job, plan, items)?, alarm_series(job, items)))
    };
    let mut given = vec![given_resistor(job.board, "E", eol.single)];
    given.extend(given_cables(job, plan, items));
    given.extend(given_series(job, items, "s", false));
    let normal = Worked::new("E + 2·r·L + s", given, at(Corner::Nominal));
    vec![
        state::closed(job.board, wiring, LoopState::Normal, normal, at),
        state::open(job.board, wiring, LoopState::Alarm),
        state::short(job.board, wiring),
    ]
}

/// Two resistors: normal `E + c + A·sa/(A + sa) + st`, alarm `E + A + c + st`, tamper open, short 0.
pub(super) fn double(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<StateFigure> {
    let wiring = Wiring::DoubleEol;
    let (sa, st) = (alarm_series(job, items), tamper_series(job, items));
    let at_rest = |corner: Corner| {
        let (end, alarm) = resistors(job.board, corner)?;
        Some(loops::double_normal(end, alarm, corner.cables(job, plan, items)?, sa, st))
    };
    let in_alarm = |corner: Corner| {
        let (end, alarm) = resistors(job.board, corner)?;
        Some(loops::double_alarm(end, alarm, corner.cables(job, plan, items)?, st))
    };
    let given = given_double(job, plan, items);
    let normal = Worked::new("E + 2·r·L + A·sa/(A + sa) + st", given.clone(), at_rest(Corner::Nominal));
    let alarm = Worked::new("E + A + 2·r·L + st", given, in_alarm(Corner::Nominal));
    vec![
        state::closed(job.board, wiring, LoopState::Normal, normal, at_rest),
        state::closed(job.board, wiring, LoopState::Alarm, alarm, in_alarm),
        state::open(job.board, wiring, LoopState::Tamper),
        state::short(job.board, wiring),
    ]
}

/// The board's two resistors at one corner.
pub(in crate::work) fn resistors(board: &Board, corner: Corner) -> Option<(f64, f64)> {
    let eol = &board.eol;
    let double = eol.double?;
    let end = corner.resistor(Some(double.end), eol.tolerance)?;
    Some((end, corner.resistor(Some(double.alarm), eol.tolerance)?))
}

/// The numbers behind a loop with two resistors.
fn given_double(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<Given> {
    let double = job.board.eol.double;
    let mut given = vec![
        given_resistor(job.board, "E", double.map(|d| d.end)),
        given_resistor(job.board, "A", double.map(|d| d.alarm)),
    ];
    given.extend(given_cables(job, plan, items));
    given.extend(given_series(job, items, "sa", false));
    given.extend(given_series(job, items, "st", true));
    given
}
