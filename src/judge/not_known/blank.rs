//! A blank: something not known, and whose it is.

use super::super::case::Case;
use super::super::types::Level;
use crate::model::{Device, Fact, JobCable};

/// Something that is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Blank {
    pub(super) level: Level,
    /// The item, cable, card or other thing whose it is.
    pub(super) about: String,
    /// What is not known.
    pub(super) what: String,
    /// The measurement or act that settles it, a whole sentence.
    pub(super) settle: &'static str,
}

impl Blank {
    /// A blank on which a figure rests.
    pub(super) fn blocker(about: &str, what: &str, settle: &'static str) -> Self {
        Self { level: Level::Blocker, about: about.into(), what: what.into(), settle }
    }

    /// A blank on which no verdict rests.
    pub(super) fn warning(about: &str, what: &str, settle: &'static str) -> Self {
        Self { level: Level::Warning, ..Self::blocker(about, what, settle) }
    }
}

pub(super) const CARD: &str = "Look it up or measure it, and put it on the card.";
/// What is not known of a device whose card leaves `supply` out.
pub(super) const SUPPLY: &str = "whether it needs a supply";
pub(super) const PLANNED: &str = "It is planned as absent; look, and write it on the card, or \"none\".";
const METER: &str = "Put a meter in its supply, or read its label, and put it on the card.";
const LENGTH: &str = "Measure a closed loop on it with the cores off the panel, or pace the run out.";
const CORES: &str = "Measure a known length of it, and put \"ohms_per_km\" on the cable's card.";
const SAY: &str = "Ask, and write it in the survey.";

/// The blanks of a cable's own resistance: its length, and what its cores are made of.
pub(super) fn of_cable(case: &Case<'_>, at: usize) -> Vec<Blank> {
    let Some(cable) = case.job.cables.get(at) else { return Vec::new() };
    let known = case.plan.lengths.get(at).is_some_and(Option::is_some);
    let name = &cable.survey.cable;
    let length = (!known).then(|| Blank::blocker(name, "its length", LENGTH));
    length.into_iter().chain(of_conductor(case, cable)).collect()
}

fn of_conductor(case: &Case<'_>, cable: &JobCable<'_>) -> Option<Blank> {
    let unknown = crate::land::ohms_per_metre(case.job, cable.kind).is_none();
    unknown.then(|| Blank::blocker(&cable.survey.cable, "what its cores are made of", CORES))
}

/// The blank of what a device draws at rest.
fn of_standby(name: &str, device: &Device) -> Option<Blank> {
    match &device.supply {
        Fact::NotKnown => Some(Blank::blocker(name, SUPPLY, PLANNED)),
        Fact::Is(supply) if supply.standby.is_none() => Some(Blank::blocker(name, "its standby current", METER)),
        Fact::Is(_) | Fact::Absent => None,
    }
}

/// The blank of what a device draws in alarm, its triggers aside.
pub(super) fn of_alarm(name: &str, device: &Device) -> Option<Blank> {
    let unknown = device.supply.get().is_some_and(|s| s.alarm.is_none());
    unknown.then(|| Blank::blocker(name, "its alarm current", METER))
}

/// The blanks of what a device's triggers draw.
pub(super) fn of_triggers(name: &str, device: &Device) -> Vec<Blank> {
    let unknown = device.triggers.iter().filter(|t| t.current.is_none());
    unknown.map(|t| Blank::blocker(name, &format!("the current of its {}", t.trigger), METER)).collect()
}

/// Everything that an item's currents leave blank.
pub(super) fn of_currents(case: &Case<'_>, item: usize) -> Vec<Blank> {
    let Some(item) = case.job.items.get(item) else { return Vec::new() };
    let own = of_standby(item.name(), item.device).into_iter().chain(of_alarm(item.name(), item.device));
    own.chain(of_triggers(item.name(), item.device)).collect()
}

/// The blank of a power source that the survey or its card does not give; `None`: both do.
pub(super) fn of_source(case: &Case<'_>) -> Option<Blank> {
    match &case.job.source {
        None => Some(Blank::blocker("power", "what feeds the job", SAY)),
        Some(source) if source.block.is_none() => {
            Some(Blank::blocker(&source.unit.id, "what it can feed (its \"power\" block)", CARD))
        }
        Some(_) => None,
    }
}

/// A blank about the row itself, where nothing else explains it: never a silent pass.
pub(super) fn or_itself(found: Vec<Blank>, about: &str) -> Vec<Blank> {
    if found.is_empty() {
        return vec![Blank::blocker(about, "something that this figure rests on", CARD)];
    }
    found
}
