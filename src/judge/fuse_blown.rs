//! `fuse-blown`: a fuse that is open or not there. Something blew it; a new one alone blows again.

use super::case::Case;
use super::types::{Finding, Level};
use crate::model::FuseFound;

const CODE: &str = "fuse-blown";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let word = |found: &FuseFound| match found {
        FuseFound::Blown => Some("is blown"),
        FuseFound::Missing => Some("is missing"),
        _ => None,
    };
    case.job
        .survey
        .fuses
        .iter()
        .filter_map(|(mark, found)| {
            let level = if feeds_the_job(case, mark) { Level::Blocker } else { Level::Warning };
            let guards = guards(case, mark);
            let says = format!(
                "Fuse {mark}{guards} {}. Find what blew it; fit the same rating, speed and size; if that one goes \
                 too, stop and find the cause.",
                word(found)?
            );
            Some(Finding::blocker(CODE, mark, says).at(level))
        })
        .collect()
}

/// Whether the old panel stays on and this fuse is between its battery or its output and the job.
fn feeds_the_job(case: &Case<'_>, mark: &str) -> bool {
    let Some(block) = case.job.panel.unit.power.get().filter(|_| case.panel_feeds()) else { return false };
    let battery = block.battery.get().and_then(|b| b.fuse.as_deref());
    block.fuse.as_deref() == Some(mark) || battery == Some(mark)
}

/// What a fuse guards, in brackets.
pub(super) fn guards(case: &Case<'_>, mark: &str) -> String {
    let fuse = case.job.panel.unit.fuse(mark).and_then(|f| f.guards.as_deref());
    fuse.map(|g| format!(" ({g})")).unwrap_or_default()
}
