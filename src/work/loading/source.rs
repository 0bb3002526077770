//! The power source: all that it feeds outside itself.

use super::super::Loading;
use super::super::draws::{self, When};
use crate::formula::sum::worked_sum;
use crate::land::Plan;
use crate::model::Job;
use crate::units::Amps;

/// The source's row. It is there even when nobody knows what the source is.
pub(super) fn row(job: &Job<'_>, plan: &Plan) -> Loading {
    let block = job.source.as_ref().and_then(|source| source.block);
    let limit = block.and_then(|block| block.limit).map(Amps::get);
    let alarm_limit = block.and_then(|block| block.alarm_limit).map(Amps::get).or(limit);
    super::row(
        "source".to_string(),
        worked_sum(draws::of_source(job, plan, When::Rest)),
        worked_sum(draws::of_source(job, plan, When::Alarm)),
        limit,
        alarm_limit,
    )
}
