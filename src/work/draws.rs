//! Who draws how much: the currents that go into the sums of loading and battery.

use super::origin;
use crate::formula::Given;
use crate::formula::sum::Part;
use crate::land::Plan;
use crate::model::{DeviceTrigger, Fact, Job, Power, SurveyLoad};
use crate::units::Amps;

/// The two moments for which currents are added up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum When {
    /// Nothing has tripped.
    Rest,
    /// Everything sounds.
    Alarm,
}

impl When {
    /// Of two currents, the one that is drawn then.
    fn of(self, standby: Option<Amps>, alarm: Option<Amps>) -> Option<Amps> {
        match self {
            Self::Rest => standby,
            Self::Alarm => alarm,
        }
    }
}

/// A current with its symbol and its origin.
pub(super) fn part(symbol: String, amps: Option<Amps>, origin: String) -> Part {
    Part { given: Given::new(symbol, amps, origin), amps: amps.map(Amps::get) }
}

/// What an item draws: its own, and in alarm its triggers. Nothing is listed for a device that needs no supply; one
/// of which nobody knows whether it does draws a current that is not known.
pub(super) fn item(job: &Job<'_>, index: usize, when: When) -> Vec<Part> {
    let Some(item) = job.items.get(index) else { return Vec::new() };
    let origin = origin::card(&item.device.id, &[]);
    let mut parts = Vec::new();
    match &item.device.supply {
        Fact::Is(supply) => {
            let amps = when.of(supply.standby, supply.alarm);
            parts.push(part(format!("I({})", item.name()), amps, origin));
        }
        Fact::NotKnown => parts.push(part(format!("I({})", item.name()), None, origin)),
        Fact::Absent => {}
    }
    if when == When::Alarm {
        parts.extend(item.device.triggers.iter().map(|trigger| of_trigger(job, index, trigger)));
    }
    parts
}

/// What one trigger of an item draws while it is fired.
pub(super) fn of_trigger(job: &Job<'_>, index: usize, trigger: &DeviceTrigger) -> Part {
    let item = &job.items[index];
    let symbol = format!("I({}, {})", item.name(), trigger.trigger);
    part(symbol, trigger.current, origin::card(&item.device.id, &[]))
}

/// What several items draw.
pub(super) fn items(job: &Job<'_>, indices: impl IntoIterator<Item = usize>, when: When) -> Vec<Part> {
    indices.into_iter().flat_map(|index| item(job, index, when)).collect()
}

/// All that the source feeds outside itself: the board, the survey's loads, every served item.
pub(super) fn of_source(job: &Job<'_>, plan: &Plan, when: When) -> Vec<Part> {
    let mut parts: Vec<Part> = feed(job, when).into_iter().collect();
    parts.extend(job.survey.loads.iter().map(|load| of_load(load, when)));
    parts.extend(items(job, plan.items.iter().map(|served| served.item), when));
    parts
}

/// What the board draws at its feed; `None` when it feeds itself, for then its own drain covers it.
fn feed(job: &Job<'_>, when: When) -> Option<Part> {
    let symbol = "I(board)".to_string();
    match job.source.as_ref().map(|source| source.power) {
        Some(Power::Board) => None,
        None => Some(part(symbol, None, "survey: what feeds the board".to_string())),
        Some(Power::Panel | Power::Supply(_)) => {
            let cites = job.board.feed.as_ref().map_or(&[][..], |feed| &feed.cite);
            let amps = job.board.feed.as_ref().and_then(|feed| when.of(feed.standby, feed.alarm));
            Some(part(symbol, amps, origin::card(&job.board.unit.id, cites)))
        }
    }
}

/// What another thing draws that the source must carry.
fn of_load(load: &SurveyLoad, when: When) -> Part {
    part(format!("I({})", load.name), when.of(load.standby, load.alarm), origin::SURVEY.to_string())
}

/// The source's own drain.
pub(super) fn own(job: &Job<'_>) -> Part {
    let source = job.source.as_ref();
    let block = source.and_then(|source| source.block);
    let origin = source.map_or_else(
        || "survey: what feeds the board".to_string(),
        |source| origin::card(&source.unit.id, block.map_or(&[], |block| &block.cite)),
    );
    part("I(own)".to_string(), block.and_then(|block| block.own), origin)
}
