//! `tamper-returns`: the sounder's tamper comes back to something else than the panel's card says. Wired as either
//! says, it would short a supply or never be seen.

use super::case::Case;
use super::types::Finding;
use crate::model::{CoreUse, Item, Returns, SirenTamper};

const CODE: &str = "tamper-returns";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let Some(panel) = case.job.panel.siren.get().and_then(|s| s.tamper.get()) else { return Vec::new() };
    case.kept().filter_map(|item| of_item(case, item, panel)).collect()
}

fn of_item(case: &Case<'_>, item: &Item<'_>, panel: &SirenTamper) -> Option<Finding> {
    if !has_core_on(case, item, &panel.terminal) {
        return None;
    }
    let (device, panel_says) = (item.device.tamper_returns()?, panel.returns?);
    if device == panel_says {
        return None;
    }
    let says = format!(
        "The tamper of {} returns to {} by its card, and to {} by the panel's ({}). Open the device and look which.",
        item.name(),
        to(device),
        to(panel_says),
        panel.terminal
    );
    Some(Finding::blocker(CODE, item.name(), says))
}

/// What a tamper comes back to, in words.
fn to(returns: Returns) -> &'static str {
    match returns {
        Returns::Pair => "a core of its own",
        Returns::Negative => "the supply negative",
        Returns::Positive => "the supply positive",
    }
}

/// Whether a core of the item is on this terminal today.
fn has_core_on(case: &Case<'_>, item: &Item<'_>, mark: &str) -> bool {
    let cores = item.cables.iter().filter_map(|c| case.job.cables.get(*c)).flat_map(|c| &c.cores);
    let mut own = cores.filter(|core| core.owner == Some(item.name()));
    own.any(|core| matches!(&core.on, CoreUse::Mark(m) if m == mark))
}
