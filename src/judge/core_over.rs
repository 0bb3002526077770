//! `core-over`: one core would carry more than its cable is rated for, and warm up in the wall.

use super::case::{Case, load_text};
use super::types::Finding;

const CODE: &str = "core-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |cable: &str, load: &str| {
        Finding::blocker(
            CODE,
            cable,
            format!("A core of {cable} carries too much: {load}. Double the core, or use another cable."),
        )
    };
    case.rows("core:")
        .into_iter()
        .filter(|(row, _)| row.ok == Some(false))
        .map(|(row, cable)| over(cable, &load_text(row)))
        .collect()
}
