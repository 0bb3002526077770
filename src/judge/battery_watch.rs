//! `battery-watch`: nothing condemns the battery, and nothing proves it.

use super::case::Case;
use super::types::Finding;
use crate::work::Verdict;

const CODE: &str = "battery-watch";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    if battery.verdict != Verdict::Watch {
        return Vec::new();
    }
    let says = format!(
        "The battery is doubtful. {} Charge it, load it with 5 to 10 % of its capacity for 10 to 30 min, and read it \
         under load: 12 V or more is good (common practice). At four to five years fit a new one.",
        battery.reasons.join(" ")
    );
    vec![Finding::warning(CODE, "battery", says)]
}
