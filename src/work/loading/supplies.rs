//! The board's own supplies: each carries the items it feeds, and their triggers.

use super::super::Loading;
use super::super::draws::{self, When};
use super::row;
use crate::formula::sum::{Part, worked_sum};
use crate::land::Plan;
use crate::model::Job;
use crate::units::Amps;

/// A row for every supply of the board, in card order.
pub(super) fn rows(job: &Job<'_>, plan: &Plan) -> Vec<Loading> {
    job.board
        .supplies
        .iter()
        .enumerate()
        .map(|(index, supply)| {
            let limit = supply.limit.map(Amps::get);
            row(
                format!("supply:{}", supply.supply),
                worked_sum(parts(job, plan, index, When::Rest)),
                worked_sum(parts(job, plan, index, When::Alarm)),
                limit,
                supply.alarm_limit.map(Amps::get).or(limit),
            )
        })
        .collect()
}

/// What a supply of the board carries.
pub(super) fn parts(job: &Job<'_>, plan: &Plan, supply: usize, when: When) -> Vec<Part> {
    let pairs = plan.pairs.iter().filter(|pair| pair.supply == supply);
    draws::items(job, pairs.flat_map(|pair| pair.items.iter().copied()), when)
}
