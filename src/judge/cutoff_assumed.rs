//! `cutoff-assumed`: the power source's card does not say at what volts it drops a discharged battery, so the volts
//! at the battery's end are worked at 10.5 V.

use super::case::{Case, volts};
use super::types::Finding;
use crate::land::volts::CUTOFF_ASSUMED;

const CODE: &str = "cutoff-assumed";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let Some(source) = &case.job.source else { return Vec::new() };
    let used = !case.figures.drops.is_empty() || !case.board_feeds();
    if !used || source.block.is_none_or(|b| b.cutoff.is_some()) {
        return Vec::new();
    }
    let says = format!(
        "Nobody knows at what volts {} drops a flat battery; {} is assumed. Look in its paper, or run it down on a \
         bench and read it.",
        source.unit.name(),
        volts(CUTOFF_ASSUMED)
    );
    vec![Finding::warning(CODE, &source.unit.id, says)]
}
