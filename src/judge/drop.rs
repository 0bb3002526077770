//! `drop`: too few or too many volts at an item. One that drops out at the battery's end turns a power cut into a
//! false alarm.

use super::case::{Case, volts};
use super::types::Finding;
use crate::work::cure;

const CODE: &str = "drop";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let wrong = case.figures.drops.iter().filter(|d| d.ok == Some(false));
    wrong.map(|drop| Finding::blocker(CODE, case.item(drop.item), text(case, drop))).collect()
}

fn text(case: &Case<'_>, drop: &crate::work::Drop) -> String {
    let show = |v: Option<f64>| v.map_or_else(|| "not known".into(), volts);
    let cure = cure::drop(case.job, case.plan, drop).map(|cure| format!(" {}", cure.text(case.job)));
    format!(
        "{} gets {} on mains and {} at the battery's end over {}; it needs {} to {}.{}",
        case.item(drop.item),
        show(drop.mains.value),
        show(drop.battery_end.value),
        case.cable(drop.cable),
        show(drop.needs_low),
        show(drop.needs_high),
        cure.unwrap_or_default()
    )
}
