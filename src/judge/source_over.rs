//! `source-over`: the power source would carry more than it gives.

use super::case::{Case, load_text};
use super::types::Finding;

const CODE: &str = "source-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let rows = case.figures.loading.iter().filter(|row| row.what == "source" && row.ok == Some(false));
    let name = case.job.source.as_ref().map_or_else(String::new, |s| s.unit.name());
    rows.map(|row| {
        let says = format!(
            "The power source ({name}) carries too much: {}. Use a larger source, or feed something else from \
             elsewhere.",
            load_text(row)
        );
        Finding::blocker(CODE, &row.what, says)
    })
    .collect()
}
