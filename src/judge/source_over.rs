//! `source-over`: the power source would carry more than it gives.

use super::case::{Case, over_text};
use super::types::Finding;

const CODE: &str = "source-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let rows = case.figures.loading.iter().filter(|row| row.what == "source" && row.ok == Some(false));
    let name = case.job.source.as_ref().map_or_else(String::new, |s| s.unit.name());
    rows.map(|row| {
        let says = format!("The power source ({name}) would carry too much: {}", over_text(case, row));
        Finding::blocker(CODE, &row.what, says)
    })
    .collect()
}
