//! `battery-small`: the battery would not carry a power cut for as long as the rules ask.

use super::case::Case;
use super::types::Finding;
use crate::units::plain;
use crate::work::cure;

const CODE: &str = "battery-small";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    if battery.enough != Some(false) {
        return Vec::new();
    }
    let ah = |value: Option<f64>| value.map_or_else(|| "not known".to_string(), |v| format!("{} Ah", plain(v, 2)));
    let cure = cure::battery(case.job, battery).map(|cure| format!(" {}", cure.text()));
    let key = battery.smallest_enough.value.map(|_| " Put the new one's capacity in \"new_battery\".");
    let says = format!(
        "The battery is {}; this job needs {}.{}{}",
        ah(battery.fitted_ah),
        ah(battery.required.value),
        cure.unwrap_or_default(),
        key.unwrap_or_default()
    );
    vec![Finding::blocker(CODE, "battery", says)]
}
