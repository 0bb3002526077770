//! `fuse-over`: a fuse would carry more than its rating, and blow when it matters most: in alarm.

use super::case::{Case, over_text};
use super::fuse_near::spoken;
use super::types::Finding;

const CODE: &str = "fuse-over";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let over = |what: &str, mark: &str, load: &str| {
        let says = format!("Fuse {} would carry more than its rating: {load}", spoken(mark));
        Finding::blocker(CODE, what, says)
    };
    let rows = case.rows("fuse:").into_iter().filter(|(row, _)| row.ok == Some(false));
    rows.map(|(row, mark)| over(&row.what, mark, &over_text(case, row))).collect()
}
