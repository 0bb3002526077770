//! `output-over`: an output would switch more than it can carry.

use super::case::{Case, load_text};
use super::types::Finding;

const CODE: &str = "output-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |what: &str, name: &str, load: &str| {
        let says = format!("Output {name} switches too much: {load}. Put a relay behind it, or use another output.");
        Finding::blocker(CODE, what, says)
    };
    let rows = case.rows("output:").into_iter().filter(|(row, _)| row.ok == Some(false));
    rows.map(|(row, name)| over(&row.what, name, &load_text(row))).collect()
}
