//! What cores, functions, methods and states are called on a page.

use crate::choose::Method;
use crate::land::{Plan, PlannedCore, To};
use crate::model::{Contact, Fact, Fires, Function, Job, LoopState, Reaction, Wiring};
use serde::Serialize;

/// A core as printed: code and word.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CoreName {
    /// Its IEC 60757 code; empty when its colour has none.
    pub code: String,
    /// Its colour as a word.
    pub word: String,
}

impl CoreName {
    /// The core of this colour.
    #[must_use]
    pub fn new(colour: &str) -> Self {
        Self { code: crate::wording::colour_code(colour).unwrap_or_default(), word: colour.to_string() }
    }

    /// Code and word as one text.
    #[must_use]
    pub fn text(&self) -> String {
        if self.code.is_empty() { self.word.clone() } else { format!("{} {}", self.code, self.word) }
    }
}

/// A core of a cable, as one text: `C1 RD red`.
#[must_use]
pub(super) fn core_of(job: &Job, cable: usize, colour: &str) -> String {
    format!("{} {}", cable_name(job, cable), CoreName::new(colour).text())
}

/// A cable's name.
#[must_use]
pub(super) fn cable_name<'a>(job: &Job<'a>, cable: usize) -> &'a str {
    job.cables.get(cable).map_or("", |c| c.survey.cable.as_str())
}

/// An item's name.
#[must_use]
pub(super) fn item_name<'a>(job: &'a Job<'_>, item: usize) -> &'a str {
    job.items.get(item).map_or("", |i| i.name())
}

/// The names of items, with commas.
#[must_use]
pub(super) fn item_names(job: &Job, items: &[usize]) -> String {
    items.iter().map(|i| item_name(job, *i)).collect::<Vec<_>>().join(", ")
}

/// A function in words.
#[must_use]
pub(super) fn function(function: &Function) -> String {
    match function {
        Function::SupplyPositive => "supply +".into(),
        Function::SupplyNegative => "supply −".into(),
        Function::Alarm => "alarm".into(),
        Function::AlarmReturn => "alarm return".into(),
        Function::Tamper => "tamper".into(),
        Function::TamperReturn => "tamper return".into(),
        Function::Trigger(name) => format!("fires the {name}"),
        Function::Data(n) => format!("keypad data {n}"),
        Function::Spare => "spare".into(),
    }
}

/// How a trigger is fired, in words.
#[must_use]
pub(super) fn fires(fires: Option<Fires>) -> &'static str {
    match fires {
        None => "not known",
        Some(Fires::NegativeApplied) => "negative applied",
        Some(Fires::NegativeRemoved) => "negative removed",
        Some(Fires::PositiveApplied) => "positive applied",
        Some(Fires::PositiveRemoved) => "positive removed",
    }
}

/// A wiring in words.
#[must_use]
pub(super) fn wiring(wiring: Option<Wiring>) -> &'static str {
    match wiring {
        None => "not known",
        Some(Wiring::ClosedLoop) => "closed loop",
        Some(Wiring::SingleEol) => "single end-of-line",
        Some(Wiring::DoubleEol) => "double end-of-line",
    }
}

/// A method in words, with what becomes of the device's tamper contact.
#[must_use]
pub(crate) fn method(method: Method, tamper: &Fact<Contact>) -> String {
    let wired = match method {
        Method::Pairs | Method::AlarmOnly => "alarm on a closed loop",
        Method::SingleEol => "alarm on a single end-of-line loop",
        Method::DoubleEol => "double end-of-line: alarm and tamper on one pair",
        Method::TamperOnly => "no alarm contact",
        Method::None => "no alarm contact wired",
    };
    let tamper = match (method, tamper) {
        (Method::DoubleEol, _) => return wired.into(),
        (_, Fact::Absent) => "it has no tamper contact",
        (_, Fact::NotKnown) => "whether it has a tamper contact is not known: none is planned",
        (Method::Pairs | Method::SingleEol | Method::TamperOnly, Fact::Is(_)) => "tamper in the tamper loop",
        (Method::AlarmOnly | Method::None, Fact::Is(_)) => "its tamper contact is NOT monitored",
    };
    format!("{wired}; {tamper}")
}

/// A state of a loop in words.
#[must_use]
pub(super) fn state(state: LoopState) -> &'static str {
    match state {
        LoopState::Normal => "at rest",
        LoopState::Alarm => "alarm contact open",
        LoopState::Tamper => "tamper contact open",
        LoopState::Short => "pair shorted",
    }
}

/// What a reaction means at the keypad.
#[must_use]
pub(super) fn reaction(reaction: Reaction) -> &'static str {
    match reaction {
        Reaction::Entry => "entry: starts the entry time",
        Reaction::Instant => "instant: alarms at once when set",
        Reaction::AllDay => "24 h: alarms at once, set or not",
        Reaction::Panic => "panic: calls for help, set or not",
    }
}

/// Yes, no, or not known: three different prints.
#[must_use]
pub(super) fn ok(ok: Option<bool>) -> &'static str {
    match ok {
        Some(true) => "yes",
        Some(false) => "NO",
        None => "not known",
    }
}

/// Where a core goes, with the cores that it is joined to.
#[must_use]
pub(super) fn destination(job: &Job, plan: &Plan, cable: usize, core: &PlannedCore) -> String {
    match &core.to {
        To::Terminal(mark) => mark.clone(),
        To::Park => "made safe: lifted, insulated alone".into(),
        To::Leave => "left: not decided yet".into(),
        To::Join(name) => {
            let with = joined_with(job, plan, name, (cable, &core.colour));
            if with.is_empty() { format!("join {name}") } else { format!("join {name} with {}", with.join(" and ")) }
        }
    }
}

/// The other cores of a join, as texts.
fn joined_with(job: &Job, plan: &Plan, name: &str, but: (usize, &str)) -> Vec<String> {
    let cores = cores_in(plan).filter(|(_, core)| matches!(&core.to, To::Join(n) if n == name));
    cores.filter(|(c, core)| (*c, core.colour.as_str()) != but).map(|(c, core)| core_of(job, c, &core.colour)).collect()
}

/// Every core of a plan, with its cable.
pub(super) fn cores_in(plan: &Plan) -> impl Iterator<Item = (usize, &PlannedCore)> {
    plan.cables.iter().enumerate().flat_map(|(c, cable)| cable.cores.iter().map(move |core| (c, core)))
}
