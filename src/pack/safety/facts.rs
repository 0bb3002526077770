//! What the safety steps rest on. *Not known*, *none* and *not asked* are three different prints.

use super::sounder::{Bell, Fate, activating, order, reach};
use crate::model::{self, Job, Power};
use crate::pack::battery::mains_off;
use crate::work::{Figures, Verdict};
use serde::Serialize;

/// A fact that the steps rest on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is about.
    pub what: String,
    /// What is known.
    pub text: String,
}

/// The facts of a job.
#[must_use]
pub(super) fn facts(job: &Job, figures: &Figures, bells: &[Bell]) -> Vec<Fact> {
    let fact = |what: &str, text: String| Fact { what: what.into(), text };
    let mut facts = vec![
        fact("Mains isolator", isolator(job)),
        fact("Receiving centre", watched(job.survey.monitored).into()),
        fact("Old panel's service code", code(job.survey.service_code).into()),
        fact("Power from now on", power(job)),
        fact("Old battery", battery(figures.battery.verdict).into()),
        fact("Old panel with the mains off", on_battery(job)),
    ];
    if bells.is_empty() {
        facts.push(fact("External sounder", "none surveyed".into()));
    }
    facts.extend(bells.iter().map(|bell| fact(&bell.name, of_bell(bell))));
    facts
}

fn of_bell(bell: &Bell) -> String {
    let fate = match bell.fate {
        Fate::Kept => "stays",
        Fate::Goes => "goes",
        Fate::NotDecided => "NOT DECIDED whether it stays",
    };
    let back = if bell.fate == Fate::Kept { format!("; goes back: {}", order(bell.reconnect)) } else { String::new() };
    format!("{fate}; {}; {}{back}", activating(bell), reach(bell))
}

/// The isolator, in words.
#[must_use]
pub(super) fn isolator(job: &Job) -> String {
    match &job.survey.isolator {
        model::Fact::NotKnown => "not asked".into(),
        model::Fact::Absent => "NONE: no work until there is one".into(),
        model::Fact::Is(place) => place.clone(),
    }
}

/// Who watches, in words.
#[must_use]
pub(super) fn watched(monitored: Option<bool>) -> &'static str {
    match monitored {
        None => "not asked whether one watches",
        Some(true) => "yes, one watches this alarm",
        Some(false) => "none watches this alarm",
    }
}

fn code(known: Option<bool>) -> &'static str {
    match known {
        None => "not asked",
        Some(true) => "known (never written down here)",
        Some(false) => "asked for, NOT KNOWN",
    }
}

fn power(job: &Job) -> String {
    let Some(source) = &job.source else { return "not asked".into() };
    let name = source.unit.name();
    match source.power {
        Power::Panel => format!("the old panel ({name}) stays on as the supply"),
        Power::Board => format!("the new board's own supply ({name})"),
        Power::Supply(_) => format!("a boxed supply ({name})"),
    }
}

fn battery(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Good => "good: a load test passed",
        Verdict::Watch => "watch: see the battery's page",
        Verdict::Untested => "NOT TESTED: do not rely on it",
        Verdict::Replace => "must be replaced: do not rely on it",
    }
}

fn on_battery(job: &Job) -> String {
    match &job.survey.battery {
        model::Fact::NotKnown => "battery not asked, so not known".into(),
        model::Fact::Absent => "no battery there: it goes dead at once".into(),
        model::Fact::Is(old) => old.mains_off.map_or_else(|| "not tested".into(), |m| mains_off(m).to_string()),
    }
}
