//! `output-over`: an output would switch more than it can carry.

use super::case::{Case, over_text};
use super::types::Finding;

const CODE: &str = "output-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |what: &str, name: &str, load: &str| {
        let says = format!("Output {name} would switch too much: {load}");
        Finding::blocker(CODE, what, says)
    };
    let rows = case.rows("output:").into_iter().filter(|(row, _)| row.ok == Some(false));
    rows.map(|(row, name)| over(&row.what, name, &over_text(case, row))).collect()
}
