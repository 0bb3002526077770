//! `place-near`: a new item's place is no cable's, but nearly one. Places match exactly, so a slip of the pen would
//! leave the item without a cable.

use super::case::Case;
use super::types::Finding;
use crate::wording::nearest;

const CODE: &str = "place-near";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let places: Vec<&str> = case.job.cables.iter().filter_map(|c| c.survey.to.as_deref()).collect();
    case.job
        .items
        .iter()
        .filter(|item| !item.keep())
        .filter_map(|item| {
            let place = item.fit.place.as_deref().filter(|p| !places.contains(p))?;
            let near = nearest(place, places.iter().copied())?;
            let says = format!(
                "No cable goes to \"{place}\" ({}), but one goes to \"{near}\". Write the place the same in both.",
                item.name()
            );
            Some(Finding::warning(CODE, place, says))
        })
        .collect()
}
