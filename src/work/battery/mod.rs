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
use crate::model::Job;
use crate::units::Hours;

/// The figures of the battery.
pub(super) fn battery(job: &Job<'_>, plan: &Plan) -> BatteryFigures {
    let standby = total(job, plan, When::Rest);
    let alarm = total(job, plan, When::Alarm);
    let asked = capacity::asked(job, &standby, &alarm);
    let required = asked.required();
    let (verdict, reasons) = verdict::verdict(job);
    BatteryFigures {
        standby_hours: asked.standby_hours().map(Hours::get),
        alarm_hours: job.grade.and_then(|grade| grade.alarm).map(Hours::get),
        fitted_ah: asked.fitted.value,
        enough: capacity::enough(required.value, asked.fitted.value),
        smallest_enough: capacity::smallest_enough(job, &asked),
        recharge: asked.recharge(&capacity::charge(job)),
        recharge_limit_hours: job.grade.and_then(|grade| grade.recharge).map(Hours::get),
        required,
        verdict,
        reasons,
        standby,
        alarm,
    }
}

/// The source's own drain and all that it feeds.
fn total(job: &Job<'_>, plan: &Plan, when: When) -> Worked {
    let mut parts: Vec<Part> = vec![draws::own(job)];
    parts.extend(draws::of_source(job, plan, when));
    worked_sum(parts)
}
