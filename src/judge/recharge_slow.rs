//! `recharge-slow`: after a power cut the battery would not be back at 80 % in the time that the rules give.

use super::case::Case;
use super::types::Finding;
use crate::units::Hours;

const CODE: &str = "recharge-slow";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let battery = &case.figures.battery;
    let (Some(takes), Some(limit)) = (battery.recharge.value, battery.recharge_limit_hours) else {
        return Vec::new();
    };
    if takes <= limit + 1e-9 {
        return Vec::new();
    }
    let hours = |h: f64| Hours::new(h).map_or_else(|| "?".into(), |h| h.to_string());
    let says = format!(
        "The battery takes {} to come back to 80 %; the rules give {}. Fit a smaller battery that is enough, or a \
         source that charges harder.",
        hours(takes),
        hours(limit)
    );
    vec![Finding::warning(CODE, "battery", says)]
}
