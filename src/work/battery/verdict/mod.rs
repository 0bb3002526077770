//! The verdict on the battery that is there, with its reasons (section 5.5).

mod age;
mod load;
mod rest;

pub(super) use load::{FROM as TESTED_FROM, LEAST, MOST, PASSES, UNTIL as TESTED_TO};
pub(super) use rest::{CHARGER as SOUND_TO, RESTED, WATCH as SOUND_FROM};

use super::super::Verdict;
use crate::model::{BatteryState, Fact, Job, MainsOff, OldBattery};

/// What speaks for a verdict.
pub(super) type Says = (Verdict, String);

/// The worst of all that the survey says about the battery, and everything that speaks for it or for a milder
/// verdict, worst first.
pub(super) fn verdict(job: &Job<'_>) -> (Verdict, Vec<String>) {
    let battery = match &job.survey.battery {
        Fact::Absent => return (Verdict::Replace, vec!["There is no battery.".to_string()]),
        Fact::NotKnown => {
            return (Verdict::Untested, vec!["The survey does not say what battery there is.".to_string()]);
        }
        Fact::Is(battery) => battery,
    };
    let mut says: Vec<Says> = looks(battery).into_iter().collect();
    says.extend(mains_off(battery));
    says.extend(age::says(battery, job.survey.visited));
    says.extend(rest::says(battery));
    says.push(load::says(battery));
    says.extend(untested(battery));
    says.sort_by_key(|(verdict, _)| std::cmp::Reverse(*verdict));
    let worst = says.first().map_or(Verdict::Untested, |(verdict, _)| *verdict);
    if worst == Verdict::Replace {
        // It goes anyway: nobody need test it.
        says.retain(|(_, reason)| reason != load::NOT_MADE);
    }
    (worst, says.into_iter().map(|(_, reason)| reason).collect())
}

/// What its looks say.
fn looks(battery: &OldBattery) -> Option<Says> {
    match battery.state? {
        BatteryState::Swollen => Some((Verdict::Replace, "It is swollen.".to_string())),
        BatteryState::Leaking => Some((Verdict::Replace, "It leaks.".to_string())),
        BatteryState::Sound => None,
    }
}

/// What happened with the mains off.
fn mains_off(battery: &OldBattery) -> Option<Says> {
    let dropped = battery.mains_off? == MainsOff::DropsOut;
    dropped.then(|| (Verdict::Replace, "The panel dropped out with the mains off.".to_string()))
}

/// Whether nothing was read at all. A rest voltage that can't be judged still counts as read.
fn untested(battery: &OldBattery) -> Option<Says> {
    let load = battery.load.and_then(|load| load.volts);
    let read = battery.rest.is_some() || load.is_some() || battery.mains_off.is_some();
    (!read).then(|| {
        (Verdict::Untested, "No rest voltage, no load test, and nobody saw it with the mains off.".to_string())
    })
}
