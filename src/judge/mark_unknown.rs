//! `mark-unknown`: a core is on a mark that the panel's card does not have. Either the mark was misread or the card
//! is of another issue of the panel: what the core does is not known.

use super::case::{Case, owner_of};
use super::types::{Finding, Level};
use crate::model::CoreUse;
use crate::wording::nearest;

const CODE: &str = "mark-unknown";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let unit = &case.job.panel.unit;
    let mut found = Vec::new();
    for cable in &case.job.cables {
        for core in &cable.survey.cores {
            let CoreUse::Mark(mark) = &core.on else { continue };
            if unit.terminal(mark).is_some() {
                continue;
            }
            let kept = owner_of(cable, core.of.as_deref()).is_some_and(|owner| case.is_kept(owner));
            let near = nearest(mark, unit.terminals.iter().map(|t| t.mark.as_str()));
            let near = near.map(|n| format!(" The nearest is {n}.")).unwrap_or_default();
            let name = &cable.survey.cable;
            let says = format!(
                "{name} {} is on {mark}, and {} has no such terminal.{near} Read the mark again; if it is right, \
                 the card is wrong.",
                core.colour,
                unit.name()
            );
            let level = if kept { Level::Blocker } else { Level::Warning };
            found.push(Finding::blocker(CODE, name, says).at(level));
        }
    }
    found
}
