//! `fuse-larger`: a larger fuse than the card's, or a bridge of wire or foil. What is downstream may have been
//! overheated: it is looked at before anyone relies on it.

use super::case::Case;
use super::fuse_blown::guards;
use super::types::Finding;
use crate::model::{Fuse, FuseFound};

const CODE: &str = "fuse-larger";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.job.survey.fuses.iter().filter_map(|(mark, found)| of_fuse(case, mark, found)).collect()
}

fn of_fuse(case: &Case<'_>, mark: &str, found: &FuseFound) -> Option<Finding> {
    let card = case.job.panel.unit.fuse(mark);
    let right = card.and_then(|f| f.rating).map_or_else(|| "the right fuse".into(), |r| r.to_string());
    let guards = guards(case, mark);
    let wrong = match found {
        FuseFound::Bridged => format!("Fuse {mark}{guards} is bridged; it should be {right}."),
        FuseFound::Fitted(rating, _) if is_larger(card?, found) => {
            format!("Fuse {mark}{guards} is {rating}; it should be {right}.")
        }
        _ => return None,
    };
    let says = format!(
        "{wrong} Open and look at the wiring and the board behind it for scorching; fit the right fuse; then write \
         what was found in \"settled\"."
    );
    Some(Finding::blocker(CODE, mark, says))
}

/// Whether the fuse found is rated higher than the card's.
pub(super) fn is_larger(card: &Fuse, found: &FuseFound) -> bool {
    match (card.rating, found) {
        (Some(right), FuseFound::Fitted(rating, _)) => rating.get() > right.get() + 1e-9,
        _ => false,
    }
}
