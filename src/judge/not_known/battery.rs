//! What leaves it not known whether the battery is enough, or how long it takes to charge.

use super::super::case::Case;
use super::blank::{Blank, CARD, or_itself};
use super::loading::{of_fed, of_own};
use crate::model::{Fact, Grade, Rules};

const CAPACITY: &str = "Read it off the battery's case.";
const RULES: &str = "Look it up, and put it in the rules file.";
const GRADE: &str = "Ask which grade the site is, and write it in the survey.";

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    let mut found = Vec::new();
    if case.figures.battery.enough.is_none() && !known_absent(case) {
        found = or_itself(of_enough(case), "battery");
    }
    if case.figures.battery.recharge.value.is_none() {
        found.extend(charge(case));
    }
    if case.figures.battery.recharge_limit_hours.is_none() {
        found.extend(case.job.grade.map(|_| Blank::warning(&case.job.rules.rules, "its recharge time", RULES)));
    }
    found
}

/// Whether there is no battery and none goes in: the verdict says so already.
fn known_absent(case: &Case<'_>) -> bool {
    case.job.survey.battery.is_absent() && case.job.survey.new_battery.is_none()
}

fn of_enough(case: &Case<'_>) -> Vec<Blank> {
    let mut found: Vec<Blank> = capacity(case).into_iter().collect();
    found.extend(of_fed(case));
    found.extend(of_own(case));
    match case.job.grade {
        None => found.push(Blank::blocker("grade", "the grade", GRADE)),
        Some(grade) => found.extend(of_grade(case, grade)),
    }
    found.extend(of_rules(case.job.rules));
    found
}

/// The blank of the capacity that counts.
fn capacity(case: &Case<'_>) -> Option<Blank> {
    if case.figures.battery.fitted_ah.is_some() {
        return None;
    }
    let what = match &case.job.survey.battery {
        Fact::Is(_) => "its capacity",
        _ => "which battery is there",
    };
    Some(Blank::blocker("battery", what, CAPACITY))
}

fn of_grade(case: &Case<'_>, grade: &Grade) -> Vec<Blank> {
    let missing = |missing: bool, what: &str| {
        missing.then(|| Blank::blocker(&case.job.rules.rules, &format!("{what} of grade {}", grade.grade), RULES))
    };
    let standby = case.figures.battery.standby_hours.is_none();
    let alarm = case.figures.battery.alarm_hours.is_none();
    [missing(standby, "the standby time"), missing(alarm, "the alarm time")].into_iter().flatten().collect()
}

fn of_rules(rules: &Rules) -> Vec<Blank> {
    let missing = |missing: bool, what: &str| missing.then(|| Blank::blocker(&rules.rules, what, RULES));
    [
        missing(rules.ageing.is_none(), "its ageing factor"),
        missing(rules.peukert.is_none(), "its exponent \"peukert\""),
        missing(rules.temperature.is_empty(), "its capacity by temperature"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The blank of what the source charges with.
fn charge(case: &Case<'_>) -> Option<Blank> {
    let source = case.job.source.as_ref()?;
    let unknown = source.block?.charge.is_none() && !known_absent(case);
    unknown.then(|| Blank::warning(&source.unit.id, "what it charges its battery with", CARD))
}
