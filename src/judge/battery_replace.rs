//! `battery-replace`: the battery that is there must go. With one, a power cut is a false alarm or silence; a
//! swollen one can burst.

use super::case::Case;
use super::types::Finding;
use crate::model::Fact;
use crate::work::Verdict;

const CODE: &str = "battery-replace";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    if battery.verdict != Verdict::Replace {
        return Vec::new();
    }
    let reasons = battery.reasons.join(" ");
    let none = matches!(case.job.survey.battery, Fact::Absent);
    let begins = |words: &str| if none { reasons.clone() } else { format!("{words} {reasons}") };
    let finding = match case.job.survey.new_battery {
        None => {
            let must = begins("The battery must be replaced.");
            Finding::blocker(CODE, "battery", format!("{must} Put the new one's capacity in \"new_battery\"."))
        }
        Some(new) => {
            let away = begins("Take the old battery away.");
            Finding::warning(CODE, "battery", format!("{away} A new one of {new} goes in."))
        }
    };
    vec![finding]
}
