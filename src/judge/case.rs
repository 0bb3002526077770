//! What every rule looks at, and the questions that several rules ask of it.

use crate::land::Plan;
use crate::model::{Item, Job, JobCable, Power};
use crate::units::{Amps, Ohms, Volts};
use crate::work::{Figures, Loading, cure};

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

/// When a loading row is over, what it carries and may carry then, and what would cure it: `in alarm: 628 mA of
/// 500 mA. 128 mA in alarm must …`.
pub(super) fn over_text(case: &Case<'_>, row: &Loading) -> String {
    let part = |when: &str, load: Option<f64>, limit: Option<f64>| {
        let (load, limit) = load.zip(limit)?;
        Some((load > limit * share(row) + 1e-9, format!("{} of {} {when}", amps(load), amps(limit))))
    };
    let parts = [
        part("at rest", row.standby.value, row.limit),
        part("in alarm", row.alarm.value, row.alarm_limit.or(row.limit)),
    ];
    let over: Vec<String> = parts.into_iter().flatten().filter(|(over, _)| *over).map(|(_, text)| text).collect();
    let cure = cure::loading_text(case.job, case.plan, &case.figures.loading, row).map(|cure| format!(" {cure}"));
    format!("{}.{}", crate::wording::listed(&over), cure.unwrap_or_default())
}

/// The share of its limit from which a row has a finding.
fn share(row: &Loading) -> f64 {
    if row.near { cure::NEAR } else { 1.0 }
}
