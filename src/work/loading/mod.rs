//! What supplies, source, fuses, outputs and cores carry, against what they may (section 5.3).

mod cores;
mod fuses;
mod outputs;
mod source;
mod supplies;

use super::Loading;
use crate::formula::Worked;
use crate::formula::sum::{both, within};
use crate::land::Plan;
use crate::model::Job;

/// Every row: the board's supplies, the source, the fuses, the outputs with triggers, the cables that carry current.
pub(super) fn loading(job: &Job<'_>, plan: &Plan) -> Vec<Loading> {
    let mut rows = supplies::rows(job, plan);
    rows.push(source::row(job, plan));
    rows.extend(fuses::rows(job, plan));
    rows.extend(outputs::rows(job, plan));
    rows.extend(cores::rows(job, plan));
    rows
}

/// A row, held against its limits.
fn row(what: String, standby: Worked, alarm: Worked, limit: Option<f64>, alarm_limit: Option<f64>) -> Loading {
    let ok = both(within(standby.value, limit), within(alarm.value, alarm_limit));
    Loading { what, standby, alarm, limit, alarm_limit, ok, near: false }
}
