//! A supply, source, output or fuse that carries too much: the current that must go.

use super::super::Loading;
use super::show;
use crate::formula::cure::{excess, next_fuse};
use crate::formula::sum::SPARE;

pub use crate::formula::fuse::NEAR;

/// What must go. `None` in a field: nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCure {
    /// Amperes that must go at rest.
    pub standby: Option<f64>,
    /// Amperes that must go in alarm.
    pub alarm: Option<f64>,
    /// The limit is three quarters of a fuse's rating, not the rating.
    pub near: bool,
    /// For a fuse: the larger one that would carry it, which is no cure.
    pub larger_fuse: Option<f64>,
}

/// What would cure a row that carries too much, or a fuse that is near its rating; `None` for any other row.
#[must_use]
pub fn load(row: &Loading) -> Option<LoadCure> {
    let near = row.near && row.ok != Some(false);
    let share = if near { NEAR } else { 1.0 };
    let over = |figure: Option<f64>, limit: Option<f64>| excess(figure, limit.map(|limit| limit * share));
    let standby = over(row.standby.value, row.limit);
    let alarm = over(row.alarm.value, row.alarm_limit.or(row.limit));
    if standby.is_none() && alarm.is_none() {
        return None;
    }
    let most = row.standby.value.into_iter().chain(row.alarm.value).fold(0.0, f64::max);
    let larger = next_fuse(most / share).filter(|fuse| row.limit.is_none_or(|limit| *fuse > limit + SPARE));
    Some(LoadCure { standby, alarm, near, larger_fuse: larger.filter(|_| row.what.starts_with("fuse:")) })
}

impl LoadCure {
    /// The cure in words, numbers first. For a supply, `where_to` says which other has room.
    pub(super) fn text(&self, row: &Loading, where_to: &str) -> String {
        let go = |amps: Option<f64>, when: &str| amps.map(|amps| format!("{} {when}", show::amps_up(amps)));
        let both: Vec<String> =
            [go(self.standby, "at rest"), go(self.alarm, "in alarm")].into_iter().flatten().collect();
        let gone = both.join(" and ");
        let moved = match row.what.split(':').next() {
            Some("source") => format!("{gone} must be fed from elsewhere{}", source_needed(row)),
            Some("output") => format!("{gone} must go to another output, or over a relay"),
            Some("supply") => format!("{gone} must go to another supply{where_to}"),
            _ if self.near => format!("{gone} must go elsewhere to bring it to 75 %"),
            _ => format!("{gone} must go elsewhere"),
        };
        let fuse = self.larger_fuse.map(|fuse| {
            format!(" A fuse of {} is no cure: it would no longer guard what is behind it.", show::amps(fuse))
        });
        format!("{moved}.{}", fuse.unwrap_or_default())
    }
}

/// The source that would do.
fn source_needed(row: &Loading) -> String {
    match (row.standby.value, row.alarm.value) {
        (Some(standby), Some(alarm)) => {
            let (standby, alarm) = (show::amps_up(standby), show::amps_up(alarm));
            format!(", or a source that gives {standby} at rest and {alarm} in alarm")
        }
        _ => String::new(),
    }
}
