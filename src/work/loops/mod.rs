//! What each loop reads at the board in each of its states (section 5.4).

pub(super) mod alarm;
pub(super) mod parts;
pub(super) mod state;
mod tamper;

use super::{LoopFigure, StateFigure};
use crate::land::{Plan, PlannedLoop};
use crate::model::{Job, Wiring};

/// Every planned loop, in the plan's order.
pub(super) fn loops(job: &Job<'_>, plan: &Plan) -> Vec<LoopFigure> {
    plan.loops
        .iter()
        .map(|planned| LoopFigure {
            input: planned.input,
            items: planned.items.clone(),
            wiring: planned.wiring,
            tamper: planned.tamper,
            states: states(job, plan, planned),
        })
        .collect()
}

/// What a loop reads in each of its states.
pub(super) fn states(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Vec<StateFigure> {
    match (planned.tamper, planned.wiring) {
        (true, _) => tamper::states(job, plan, &planned.items),
        (false, Wiring::ClosedLoop) => alarm::closed(job, plan, &planned.items),
        (false, Wiring::SingleEol) => alarm::single(job, plan, &planned.items),
        (false, Wiring::DoubleEol) => alarm::double(job, plan, &planned.items),
    }
}
