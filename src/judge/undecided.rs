//! `undecided`: something hangs on a cable and nobody has said whether it stays. Its cores are left alone until
//! someone does.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "undecided";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.job
        .undecided
        .iter()
        .map(|(cable, served)| {
            let says = format!(
                "{} on {} is neither kept nor removed. Ask, and put it in \"fit\" or in \"remove\".",
                served.item,
                case.cable(*cable)
            );
            Finding::blocker(CODE, &served.item, says)
        })
        .collect()
}
