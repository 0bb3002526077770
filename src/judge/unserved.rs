//! `unserved`: an item for which the plan has no wiring.

use super::case::Case;
use super::types::{Finding, Level};
use crate::model::Priority;

const CODE: &str = "unserved";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for (item, chosen) in case.job.items.iter().zip(&case.plan.choice.items) {
        let Err(shortage) = chosen else { continue };
        let level = match item.fit.priority {
            Priority::Must => Level::Blocker,
            Priority::Want => Level::Warning,
        };
        let says = format!("{} is not served: {shortage}.", item.name());
        found.push(Finding::blocker(CODE, item.name(), says).at(level));
    }
    found
}
