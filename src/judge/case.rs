//! What every rule looks at, and the questions that several rules ask of it.

use crate::land::Plan;
use crate::model::{Item, Job, JobCable, Power};
use crate::units::{Amps, Ohms, Volts};
use crate::work::{Figures, Loading};

/// A job with its plan and figures.
#[derive(Debug, Clone, Copy)]
pub(super) struct Case<'a> {
    pub(super) job: &'a Job<'a>,
    pub(super) plan: &'a Plan,
    pub(super) figures: &'a Figures,
}

impl<'a> Case<'a> {
    /// An item's name.
    pub(super) fn item(&self, item: usize) -> &'a str {
        self.job.items.get(item).map_or("", Item::name)
    }

    /// An input's name.
    pub(super) fn input(&self, input: usize) -> &'a str {
        self.job.board.inputs.get(input).map_or("", |i| i.input.as_str())
    }

    /// A cable's name.
    pub(super) fn cable(&self, cable: usize) -> &'a str {
        self.job.cables.get(cable).map_or("", |c| c.survey.cable.as_str())
    }

    /// The names of items, as a list.
    pub(super) fn names(&self, items: &[usize]) -> String {
        crate::wording::listed(&items.iter().map(|i| self.item(*i)).collect::<Vec<_>>())
    }

    /// The kept items.
    pub(super) fn kept(&self) -> impl Iterator<Item = &'a Item<'a>> {
        self.job.items.iter().filter(|i| i.keep())
    }

    /// Whether the item of this name is kept.
    pub(super) fn is_kept(&self, name: &str) -> bool {
        self.kept().any(|i| i.name() == name)
    }

    /// Whether the old panel stays on as the power source.
    pub(super) fn panel_feeds(&self) -> bool {
        matches!(self.job.survey.power, Some(Power::Panel))
    }

    /// Whether the board feeds itself.
    pub(super) fn board_feeds(&self) -> bool {
        matches!(self.job.survey.power, Some(Power::Board))
    }

    /// The rows of the loading table of one kind (`supply:`, `output:` …), each with the name after it.
    pub(super) fn rows(&self, kind: &str) -> Vec<(&'a Loading, &'a str)> {
        self.figures.loading.iter().filter_map(|row| Some((row, row.what.strip_prefix(kind)?))).collect()
    }
}

/// The owner of a core as surveyed: whom the survey names, else the only item of the cable.
pub(super) fn owner_of<'a>(cable: &JobCable<'a>, of: Option<&'a str>) -> Option<&'a str> {
    of.or(match cable.survey.serves.as_slice() {
        [only] => Some(only.item.as_str()),
        _ => None,
    })
}

/// Volts as a person writes them.
pub(super) fn volts(value: f64) -> String {
    Volts::new(value).map_or_else(|| "?".into(), |v| v.to_string())
}

/// Amperes as a person writes them.
pub(super) fn amps(value: f64) -> String {
    Amps::new(value).map_or_else(|| "?".into(), |a| a.to_string())
}

/// Ohms as a person writes them.
pub(super) fn ohms(value: f64) -> String {
    Ohms::new(value).map_or_else(|| "?".into(), |o| o.to_string())
}

/// What a loading row carries and may carry, in words.
pub(super) fn load_text(row: &Loading) -> String {
    let over = |load: Option<f64>, limit: Option<f64>| match (load, limit) {
        (Some(load), Some(limit)) => format!("{} of {}", amps(load), amps(limit)),
        (Some(load), None) => amps(load),
        (None, _) => "not known".into(),
    };
    let rest = over(row.standby.value, row.limit);
    let alarm = over(row.alarm.value, row.alarm_limit.or(row.limit));
    format!("at rest {rest}, in alarm {alarm}")
}
