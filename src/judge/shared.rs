//! `shared`: several alarm loops on one input. The board can't tell which of them opened.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "shared";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let shared = case.plan.loops.iter().filter(|l| !l.tamper && l.items.len() > 1);
    shared
        .map(|l| {
            let input = case.input(l.input);
            let says = format!(
                "{} are on input {input} in series: the board can't tell which opened. Name the input so.",
                case.names(&l.items)
            );
            Finding::note(CODE, input, says)
        })
        .collect()
}
