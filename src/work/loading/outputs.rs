//! The board's outputs: each switches the triggers that it fires.

use super::super::Loading;
use super::super::draws;
use super::row;
use crate::formula::sum::{Part, worked_sum};
use crate::land::Plan;
use crate::model::Job;
use crate::units::Amps;

/// A row for each output that fires something, in card order.
pub(super) fn rows(job: &Job<'_>, plan: &Plan) -> Vec<Loading> {
    let fires = |index: usize| plan.triggers.iter().any(|trigger| trigger.output == index);
    let outputs = job.board.outputs.iter().enumerate().filter(|(index, _)| fires(*index));
    outputs
        .map(|(index, output)| {
            let limit = output.limit.map(Amps::get);
            let what = format!("output:{}", output.output);
            row(what, worked_sum(Vec::new()), worked_sum(parts(job, plan, index)), limit, limit)
        })
        .collect()
}

/// The currents of all triggers on an output.
fn parts(job: &Job<'_>, plan: &Plan, output: usize) -> Vec<Part> {
    let on_it = plan.triggers.iter().filter(|trigger| trigger.output == output);
    on_it
        .filter_map(|planned| {
            let trigger = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
            Some(draws::of_trigger(job, planned.item, trigger))
        })
        .collect()
}
