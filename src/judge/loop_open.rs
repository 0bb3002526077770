//! `loop-open`: a loop that read open with its device at rest: a broken core, or a contact that never closes.

use super::case::Case;
use super::measured::measured_pairs;
use super::types::{Finding, Level};

const CODE: &str = "loop-open";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let open = measured_pairs(case).into_iter().filter(|held| held.pair.ohms.is_none());
    open.map(|held| {
        let says = format!(
            "{} {} ({}) read open. Link them at the device and read again: if still open a core is broken, if not \
             the contact is.",
            held.cable,
            held.cores(),
            held.pair.item
        );
        let level = if held.pair.kept { Level::Blocker } else { Level::Warning };
        Finding::blocker(CODE, held.cable, says).at(level)
    })
    .collect()
}
