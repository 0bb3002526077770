//! `trigger-not-known`: nobody knows how a kept sounder is fired: the panel has no trigger of that name, or a card
//! does not say how it fires.

use super::case::Case;
use super::trigger_mismatch::on_panel;
use super::types::Finding;
use crate::model::DeviceTrigger;

const CODE: &str = "trigger-not-known";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for item in case.kept() {
        for trigger in &item.device.triggers {
            if let Some(missing) = missing(case, trigger) {
                let says = format!(
                    "How the {} of {} is fired is not known: {missing}. Measure its trigger wire at rest and while the \
                     panel fires it.",
                    trigger.trigger,
                    item.name()
                );
                found.push(Finding::blocker(CODE, item.name(), says));
            }
        }
    }
    found
}

/// What is missing to know how a trigger fires.
fn missing(case: &Case<'_>, trigger: &DeviceTrigger) -> Option<String> {
    let Some(on_panel) = on_panel(case, trigger) else {
        return Some(format!("{} has no trigger of that name", case.job.panel.unit.name()));
    };
    let silent = match (on_panel.fires, trigger.fires) {
        (Some(_), Some(_)) => return None,
        (None, Some(_)) => format!("the panel's card does not say how {} fires", on_panel.terminal),
        (Some(_), None) => "the device's card does not say".to_string(),
        (None, None) => "neither card says".to_string(),
    };
    Some(silent)
}
