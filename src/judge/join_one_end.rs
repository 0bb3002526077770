//! `join-one-end`: a joint of which the survey has one core only. The other end is a loop that nobody has followed.

use super::case::Case;
use super::types::Finding;
use crate::model::CoreUse;
use std::collections::BTreeMap;

const CODE: &str = "join-one-end";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let lone = ends(case).into_iter().filter(|(_, ends)| ends.len() == 1);
    lone.map(|(name, ends)| {
        let says = format!(
            "Join {name} has one core only: {}. Follow what it is twisted with, and write the same join there.",
            crate::wording::listed(&ends)
        );
        Finding::warning(CODE, &format!("join {name}"), says)
    })
    .collect()
}

/// The cores of every join, as surveyed.
pub(super) fn ends<'a>(case: &Case<'a>) -> BTreeMap<&'a str, Vec<String>> {
    let mut joins: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for cable in &case.job.cables {
        for core in &cable.survey.cores {
            if let CoreUse::Join(name) = &core.on {
                joins.entry(name).or_default().push(format!("{} of {}", core.colour, cable.survey.cable));
            }
        }
    }
    joins
}
