//! `fuse-near`: a fuse that carries more than three quarters of its rating (common practice). It ages, and goes on a
//! cold morning when everything charges.

use super::case::{Case, over_text};
use super::types::Finding;

const CODE: &str = "fuse-near";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let near = |what: &str, mark: &str, load: &str| {
        let says =
            format!("Fuse {} is over three quarters of its rating: {load} Or accept it knowingly.", spoken(mark));
        Finding::warning(CODE, what, says)
    };
    let rows = case.rows("fuse:").into_iter().filter(|(row, _)| row.near && row.ok != Some(false));
    rows.map(|(row, mark)| near(&row.what, mark, &over_text(case, row))).collect()
}

/// `panel:F2` as `F2 of the panel`.
pub(super) fn spoken(row: &str) -> String {
    match row.split_once(':') {
        Some(("supply", mark)) => format!("{mark} of the power supply"),
        Some((unit, mark)) => format!("{mark} of the {unit}"),
        None => row.into(),
    }
}
