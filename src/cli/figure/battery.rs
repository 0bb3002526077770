//! `wirelore figure battery`: what a standby battery must hold.

use super::args::Battery;
use super::nothing_of;
use super::sheet::{Sheet, holds, text};
use crate::cli::report::Report;
use crate::model::Library;
use crate::units::{AmpHours, Hours};
use crate::work::alone::{BatteryAnswer, BatteryQuestion, LEADS, PROOF, battery};
use std::fmt::Display;

/// The figure, with what is behind it.
///
/// # Errors
/// When the library has no such rules, or the rules no such grade.
pub(super) fn sheet(library: &Library, asked: &Battery) -> Result<Sheet, Report> {
    let there = || library.rules.keys().map(String::as_str);
    let rules = library.rules.get(&asked.rules).ok_or_else(|| nothing_of("rules file", &asked.rules, there()))?;
    let grades = || rules.grades.iter().map(|grade| grade.grade.as_str());
    let what = format!("grade of {}", rules.rules);
    let grade = rules.grade(&asked.grade).ok_or_else(|| nothing_of(&what, &asked.grade, grades()))?;
    let answer = battery(&BatteryQuestion {
        standby: asked.standby,
        alarm: asked.alarm,
        rules,
        grade,
        reported: asked.reported,
        capacity: asked.capacity,
        charge: asked.charge,
        celsius: asked.temperature,
    });
    Ok(written(asked, answer))
}

fn written(asked: &Battery, answer: BatteryAnswer) -> Sheet {
    let mut sheet = Sheet::new("battery", &[PROOF, LEADS]);
    let (fitted, required) = (known(answer.fitted), text(answer.required.value, AmpHours::new));
    sheet.say(match answer.enough {
        Some(true) => format!("{fitted} is enough: {required} needed"),
        Some(false) => format!("{fitted} is NOT ENOUGH: {required} needed"),
        None => format!("{fitted}: what is needed is not known"),
    });
    let (rest, fired) = (known(answer.standby_hours), known(answer.alarm_hours));
    sheet.say(format!("{} for {rest}, then {} for {fired}", asked.standby, asked.alarm));
    let smallest = answer.smallest.value.and_then(AmpHours::new);
    let smallest = smallest.map_or_else(|| "none".to_string(), |capacity| capacity.to_string());
    sheet.say(format!("Smallest in stock that is enough: {smallest}"));
    sheet.number("standby_a", Some(asked.standby.get()));
    sheet.number("alarm_a", Some(asked.alarm.get()));
    sheet.number("standby_h", answer.standby_hours.map(Hours::get));
    sheet.number("alarm_h", answer.alarm_hours.map(Hours::get));
    sheet.worked("required_ah", required, answer.required);
    sheet.number("fitted_ah", answer.fitted.map(AmpHours::get));
    sheet.set("enough", answer.enough);
    sheet.worked("smallest_enough_ah", smallest, answer.smallest);
    if let Some(recharge) = answer.recharge {
        let hours = recharge.value.and_then(Hours::new).map_or_else(|| "never".to_string(), |h| h.to_string());
        let (limit, ok) = (known(answer.recharge_limit), holds(answer.recharge_ok));
        sheet.say(format!("Back to 80 % in {hours}; within {limit}: {ok}"));
        sheet.worked("recharge_h", hours, recharge);
        sheet.number("recharge_limit_h", answer.recharge_limit.map(Hours::get));
    }
    sheet
}

fn known(value: Option<impl Display>) -> String {
    value.map_or_else(|| "not known".to_string(), |value| value.to_string())
}
