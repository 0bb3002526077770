//! `drop`: too few or too many volts at an item. One that drops out at the battery's end turns a power cut into a
//! false alarm.

use super::case::{Case, volts};
use super::types::Finding;

const CODE: &str = "drop";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let wrong = case.figures.drops.iter().filter(|d| d.ok == Some(false));
    wrong.map(|drop| Finding::blocker(CODE, case.item(drop.item), text(case, drop))).collect()
}

fn text(case: &Case<'_>, drop: &crate::work::Drop) -> String {
    let show = |v: Option<f64>| v.map_or_else(|| "not known".into(), volts);
    let (mains, end) = (drop.mains.value, drop.battery_end.value);
    let least = mains.into_iter().chain(end).fold(f64::INFINITY, f64::min);
    let cure = if drop.needs_low.is_some_and(|low| least < low) {
        "Use a thicker or shorter cable, another feed nearer by, or a device that takes less."
    } else {
        "The source gives too much for it: use another device or another source."
    };
    format!(
        "{} gets {} on mains and {} at the battery's end over {}; it needs {} to {}. {cure}",
        case.item(drop.item),
        show(mains),
        show(end),
        case.cable(drop.cable),
        show(drop.needs_low),
        show(drop.needs_high)
    )
}
