//! `battery-replace`: the battery that is there must go. With one, a power cut is a false alarm or silence; a
//! swollen one can burst.

use super::case::Case;
use super::types::Finding;
use crate::work::Verdict;

const CODE: &str = "battery-replace";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    if battery.verdict != Verdict::Replace {
        return Vec::new();
    }
    let reasons = battery.reasons.join(" ");
    let finding = match case.job.survey.new_battery {
        None => Finding::blocker(
            CODE,
            "battery",
            format!("The battery must be replaced. {reasons} Put the new one's capacity in `new_battery`."),
        ),
        Some(new) => Finding::warning(
            CODE,
            "battery",
            format!("Take the old battery away. {reasons} A new one of {new} goes in."),
        ),
    };
    vec![finding]
}
