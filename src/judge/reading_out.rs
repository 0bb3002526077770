//! `reading-out`: a terminal of the old panel read outside what its card gives. Where the panel feeds the job, its
//! supply is faulty or its card is wrong.

use super::case::{Case, volts};
use super::types::{Finding, Level};

const CODE: &str = "reading-out";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let unit = &case.job.panel.unit;
    let out = unit.power.get().and_then(|p| p.out.as_ref()).filter(|_| case.panel_feeds());
    let feeds = |mark: &String| out.is_some_and(|(plus, minus)| plus == mark || minus == mark);
    case.job
        .survey
        .readings
        .iter()
        .filter_map(|(mark, read)| {
            let window = unit.terminal(mark)?.volts?;
            if read.get() >= window.low.get() && read.get() <= window.high.get() {
                return None;
            }
            let level = if feeds(mark) { Level::Blocker } else { Level::Warning };
            let says = format!(
                "{mark} read {}; it should be {window}. Read it again with the load off and on; look at the battery, \
                 the fuse and the charger.",
                volts(read.get())
            );
            Some(Finding::blocker(CODE, mark, says).at(level))
        })
        .collect()
}
