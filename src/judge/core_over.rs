//! `core-over`: one core would carry more than its cable is rated for, and warm up in the wall.

use super::case::{Case, over_text};
use super::types::Finding;

const CODE: &str = "core-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |cable: &str, load: &str| {
        Finding::blocker(CODE, cable, format!("A core of {cable} would carry too much: {load}"))
    };
    case.rows("core:")
        .into_iter()
        .filter(|(row, _)| row.ok == Some(false))
        .map(|(row, cable)| over(cable, &over_text(case, row)))
        .collect()
}
