//! `recharge-slow`: after a power cut the battery would not be back at 80 % in the time that the rules give.

use super::case::Case;
use super::types::Finding;
use crate::units::Hours;
use crate::work::cure;

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
    let cure = cure::recharge(case.job, battery).map(|cure| format!(" {}", cure.text()));
    let says = format!(
        "The battery takes {} to come back to 80 %; the rules give {}.{}",
        hours(takes),
        hours(limit),
        cure.unwrap_or_default()
    );
    vec![Finding::warning(CODE, "battery", says)]
}
