//! `battery-small`: the battery would not carry a power cut for as long as the rules ask.

use super::case::Case;
use super::types::Finding;
use crate::units::plain;

const CODE: &str = "battery-small";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    if battery.enough != Some(false) {
        return Vec::new();
    }
    let ah = |value: Option<f64>| value.map_or_else(|| "not known".to_string(), |v| format!("{} Ah", plain(v, 2)));
    let cure = match battery.smallest_enough.value {
        Some(enough) => format!("Fit {} (`new_battery`).", ah(Some(enough))),
        None => "No battery that the power source takes is enough: lower the load, or use another source.".into(),
    };
    let says =
        format!("The battery is {}; this job needs {}. {cure}", ah(battery.fitted_ah), ah(battery.required.value));
    vec![Finding::blocker(CODE, "battery", says)]
}
