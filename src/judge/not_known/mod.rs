//! `not-known`: what nobody knows and the pack needs. A blank is never a pass: each is said with what would settle
//! it, and stops the job where a figure rests on it.

mod battery;
mod blank;
mod devices;
mod loading;
mod loops;
mod source;
mod volts;

use super::case::Case;
use super::types::{Code, Finding};
use blank::Blank;

const CODE: Code = "not-known";

/// Every blank once, at its highest level; those about one thing at one level in one finding.
pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let all = [
        devices::blanks(case),
        volts::blanks(case),
        loading::blanks(case),
        loops::blanks(case),
        battery::blanks(case),
        source::blanks(case),
    ];
    let mut blanks: Vec<Blank> = Vec::new();
    for blank in all.into_iter().flatten() {
        match blanks.iter_mut().find(|b| b.about == blank.about && b.what == blank.what) {
            Some(same) => same.level = same.level.min(blank.level),
            None => blanks.push(blank),
        }
    }
    gather(&blanks)
}

/// One finding for each level and thing.
fn gather(blanks: &[Blank]) -> Vec<Finding> {
    let mut done: Vec<(super::Level, &str)> = Vec::new();
    let mut found = Vec::new();
    for blank in blanks {
        let key = (blank.level, blank.about.as_str());
        if done.contains(&key) {
            continue;
        }
        done.push(key);
        let same: Vec<&Blank> = blanks.iter().filter(|b| b.level == key.0 && b.about == key.1).collect();
        found.push(Finding::blocker(CODE, key.1, says(&same)).at(key.0));
    }
    found
}

/// What is not known, then what settles it.
fn says(blanks: &[&Blank]) -> String {
    let whats: Vec<&str> = blanks.iter().map(|b| b.what.as_str()).collect();
    let mut acts: Vec<&str> = Vec::new();
    for blank in blanks {
        if !acts.contains(&blank.settle) {
            acts.push(blank.settle);
        }
    }
    format!("Not known: {}. {}", crate::wording::listed(&whats), acts.join(" "))
}
