//! `battery-untested`: nothing was read on the battery. Not tested is not a pass.

use super::case::Case;
use super::types::Finding;
use crate::work::Verdict;

const CODE: &str = "battery-untested";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    if case.figures.battery.verdict != Verdict::Untested {
        return Vec::new();
    }
    let says = "The battery was not tested. Read it at rest after 2 h off charge, load it with 5 to 10 % of its \
                capacity for 10 to 30 min and read it again, and see what happens with the mains off.";
    vec![Finding::warning(CODE, "battery", says.into())]
}
