//! The standby battery: verdict, reasons, sums.

use super::figure::{Figure, Whys};
use crate::model::{BatteryState, Fact, Job, MainsOff};
use crate::units::{AmpHours, Amps, Hours};
use crate::work::{BatteryFigures, Figures, Verdict, cure};
use serde::Serialize;

/// The battery as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BatteryView {
    /// The word of pack.json.
    pub verdict: &'static str,
    /// The verdict for a reader.
    pub verdict_text: &'static str,
    /// Why, each on its own.
    pub reasons: Vec<String>,
    /// What was found.
    pub found: Vec<Found>,
    /// Amperes at rest.
    pub standby: Figure,
    /// Amperes in alarm.
    pub alarm: Figure,
    /// Hours of standby asked.
    pub standby_hours: Figure,
    /// Hours of alarm asked.
    pub alarm_hours: Figure,
    /// Ampere-hours needed.
    pub required: Figure,
    /// The capacity that counts.
    pub fitted: Figure,
    /// Which battery that is.
    pub fitted_is: &'static str,
    /// Whether it is enough.
    pub enough: Option<bool>,
    /// The same in words.
    pub enough_text: &'static str,
    /// The smallest capacity of the source that is enough.
    pub smallest_enough: Figure,
    /// Hours to come back to 80 %.
    pub recharge: Figure,
    /// Hours within which it must.
    pub recharge_limit: Figure,
    /// The rules by which the hours are asked, with their source.
    pub rules: String,
    /// What would make it enough, and what would bring it back in time.
    pub cures: Vec<String>,
}

/// Something found out about the old battery, or not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Found {
    /// What.
    pub what: &'static str,
    /// What was found; `not asked`, `not tested`.
    pub text: String,
}

/// The battery of a job.
#[must_use]
pub fn battery(job: &Job, figures: &Figures, whys: &mut Whys) -> BatteryView {
    let b = &figures.battery;
    let (standby, alarm, required) = (
        whys.figure("battery", "all current at rest", &b.standby, Amps::new),
        whys.figure("battery", "all current in alarm", &b.alarm, Amps::new),
        whys.figure("battery", "capacity needed", &b.required, AmpHours::new),
    );
    let smallest_enough = smallest_enough(b, whys);
    BatteryView {
        verdict: b.verdict.word(),
        verdict_text: verdict(b.verdict),
        reasons: b.reasons.clone(),
        found: found(job),
        standby,
        alarm,
        standby_hours: Figure::given(b.standby_hours, Hours::new),
        alarm_hours: Figure::given(b.alarm_hours, Hours::new),
        required,
        fitted: Figure::given(b.fitted_ah, AmpHours::new),
        fitted_is: if job.survey.new_battery.is_some() { "the new battery" } else { "the battery that is there" },
        enough: b.enough,
        enough_text: super::names::ok(b.enough),
        smallest_enough,
        recharge: whys.figure("battery", "time to come back to 80 %", &b.recharge, Hours::new),
        recharge_limit: Figure::given(b.recharge_limit_hours, Hours::new),
        rules: rules(job),
        cures: cures(job, b),
    }
}

/// The smallest capacity that is enough; that there is none is known too.
fn smallest_enough(b: &BatteryFigures, whys: &mut Whys) -> Figure {
    let mut figure = Figure::given(b.smallest_enough.value, AmpHours::new);
    if figure.value.is_none() && b.standby.value.is_some() && b.alarm.value.is_some() {
        figure.text = "none that the power source takes".into();
    }
    whys.worded("battery", "smallest capacity that is enough", &b.smallest_enough, figure)
}

/// What would make the battery enough, and what would bring it back in time.
fn cures(job: &Job, figures: &BatteryFigures) -> Vec<String> {
    let small = cure::battery(job, figures).map(|cure| format!("Too small. {}", cure.text()));
    let slow = cure::recharge(job, figures).map(|cure| format!("Back too slowly. {}", cure.text()));
    small.into_iter().chain(slow).collect()
}

/// A verdict for a reader.
fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Good => "GOOD: a load test that counts passed",
        Verdict::Watch => "WATCH: look at it again",
        Verdict::Untested => "NOT TESTED: nothing is known of its health",
        Verdict::Replace => "REPLACE: it must go",
    }
}

/// The rules and their source.
fn rules(job: &Job) -> String {
    let title = job.rules.title.as_deref().unwrap_or(&job.rules.rules);
    let Some(grade) = job.grade else { return format!("{title}; the grade was not asked") };
    let cite = if grade.cite.is_empty() { "no source given".to_string() } else { grade.cite.join(", ") };
    format!("{title}, grade {} ({cite})", grade.grade)
}

/// What the survey found out about the old battery.
fn found(job: &Job) -> Vec<Found> {
    let line = |what, text: Option<String>, not: &str| Found { what, text: text.unwrap_or_else(|| not.to_string()) };
    let old = match &job.survey.battery {
        Fact::NotKnown => return vec![line("Old battery", None, "not asked")],
        Fact::Absent => return vec![line("Old battery", None, "none there")],
        Fact::Is(old) => old,
    };
    let load = old.load.as_ref().map(|test| {
        let part = |text: Option<String>| text.unwrap_or_else(|| "not noted".into());
        format!(
            "{} at {} after {}",
            part(test.volts.map(|v| v.to_string())),
            part(test.current.map(|a| a.to_string())),
            part(test.after.map(|h| h.to_string()))
        )
    });
    let rested = old.rested.map_or_else(|| ", time off charge not noted".into(), |h| format!(", {h} off charge"));
    vec![
        line("Capacity", old.capacity.map(|c| c.to_string()), "not read"),
        line("Made", old.made.map(|(year, month)| format!("{year:04}-{month:02}")), "not read"),
        line("Looks", old.state.map(|s| looks(s).to_string()), "not asked"),
        line("Volts at rest", old.rest.map(|v| format!("{v}{rested}")), "not tested"),
        line("With the mains off", old.mains_off.map(|m| mains_off(m).to_string()), "not tested"),
        line("Load test", load, "not tested"),
    ]
}

fn looks(state: BatteryState) -> &'static str {
    match state {
        BatteryState::Sound => "sound",
        BatteryState::Swollen => "SWOLLEN",
        BatteryState::Leaking => "LEAKING",
    }
}

/// What happened with the mains off.
#[must_use]
pub fn mains_off(seen: MainsOff) -> &'static str {
    match seen {
        MainsOff::StaysUp => "the panel stayed up",
        MainsOff::DropsOut => "the panel DROPPED OUT",
    }
}
