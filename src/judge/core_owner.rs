//! `core-owner`: on a cable of several items, a core of which the survey does not say whose it is. Where it goes at
//! the far end is then a guess.

use super::case::Case;
use super::types::Finding;
use crate::model::{CoreUse, Function, JobCable};
use crate::wording::listed;

const CODE: &str = "core-owner";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.job.cables.iter().filter(|c| c.survey.serves.len() > 1).filter_map(of_cable).collect()
}

fn of_cable(cable: &JobCable<'_>) -> Option<Finding> {
    let ownerless: Vec<String> = cable
        .cores
        .iter()
        .filter(|core| matches!(core.on, CoreUse::Mark(_) | CoreUse::Join(_)))
        .filter(|core| core.owner.is_none() && !core.function.as_ref().is_some_and(Function::is_supply))
        .map(|core| format!("{} ({})", core.colour, core.on.word()))
        .collect();
    if ownerless.is_empty() {
        return None;
    }
    let name = &cable.survey.cable;
    let items: Vec<&str> = cable.survey.serves.iter().map(|s| s.item.as_str()).collect();
    let says = format!(
        "{name} serves {}, and nobody said whose {} is. Open one device, ring the cores through, and write \
         \"VALUE for ITEM\".",
        listed(&items),
        listed(&ownerless)
    );
    Some(Finding::warning(CODE, name, says))
}
