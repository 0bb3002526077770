//! `quiet-not-known`: the old panel stays on as the power supply, and nobody knows how it stays silent with its
//! loops lifted.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "quiet-not-known";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let unit = &case.job.panel.unit;
    if !case.panel_feeds() || unit.power.get().is_some_and(|p| p.quiet.is_some()) {
        return Vec::new();
    }
    let says = format!(
        "{} stays on, and nobody knows how it stays silent with its loops lifted. Link each loop at the panel, power \
         it with the sounder's wires off, and watch it for a day's test before leaving.",
        unit.name()
    );
    vec![Finding::warning(CODE, &unit.id, says)]
}
