//! The standby battery: what it must hold, what would do, how soon it is back (section 5.5).

pub(super) mod capacity;
mod sound;
mod verdict;

pub use sound::{Sound, sound_battery};

use super::BatteryFigures;
use super::draws::{self, When};
use crate::formula::Worked;
use crate::formula::sum::{Part, worked_sum};
use crate::land::Plan;
use crate::model::{Grade, Job};
use crate::units::Hours;

/// The figures of the battery.
pub(super) fn battery(job: &Job<'_>, plan: &Plan) -> BatteryFigures {
    let standby = total(job, plan, When::Rest);
    let alarm = total(job, plan, When::Alarm);
    let fitted_ah = capacity::fitted(job);
    let required = capacity::required(job, &standby, &alarm, fitted_ah);
    let (verdict, reasons) = verdict::verdict(job);
    BatteryFigures {
        standby_hours: standby_hours(job).map(Hours::get),
        alarm_hours: job.grade.and_then(|grade| grade.alarm).map(Hours::get),
        fitted_ah,
        enough: capacity::enough(required.value, fitted_ah),
        smallest_enough_ah: capacity::smallest_enough(job, &standby, &alarm),
        recharge: capacity::recharge(job, fitted_ah),
        recharge_limit_hours: job.grade.and_then(|grade| grade.recharge).map(Hours::get),
        standby,
        alarm,
        required,
        verdict,
        reasons,
    }
}

/// The source's own drain and all that it feeds.
fn total(job: &Job<'_>, plan: &Plan, when: When) -> Worked {
    let mut parts: Vec<Part> = vec![draws::own(job)];
    parts.extend(draws::of_source(job, plan, when));
    worked_sum(parts)
}

/// The standby time that the grade asks of this site.
fn standby_hours(job: &Job<'_>) -> Option<Hours> {
    let grade: &Grade = job.grade?;
    if job.survey.mains_fail_reported { grade.standby_reported } else { grade.standby }
}
