//! `supply-over`: a supply of the board would carry more than it gives.

use super::case::{Case, over_text};
use super::types::Finding;

const CODE: &str = "supply-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |what: &str, name: &str, load: &str| {
        let says = format!("Supply {name} would carry too much: {load}");
        Finding::blocker(CODE, what, says)
    };
    let rows = case.rows("supply:").into_iter().filter(|(row, _)| row.ok == Some(false));
    rows.map(|(row, name)| over(&row.what, name, &over_text(case, row))).collect()
}
