//! `trigger-mismatch`: the panel's card and the device's disagree on what fires a sounder. Whichever is wrong, the
//! sounder would sound at once or never.

use super::case::Case;
use super::types::Finding;
use crate::model::{DeviceTrigger, SirenTrigger};

const CODE: &str = "trigger-mismatch";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for item in case.kept() {
        for trigger in &item.device.triggers {
            let Some(on_panel) = on_panel(case, trigger) else { continue };
            let (Some(today), Some(own)) = (on_panel.fires, trigger.fires) else { continue };
            if today != own {
                let says = format!(
                    "The {} of {} is fired by {} on the panel ({}) and by {} by its own card. Measure the trigger at \
                     rest and while the panel fires it.",
                    trigger.trigger,
                    item.name(),
                    today.word(),
                    on_panel.terminal,
                    own.word()
                );
                found.push(Finding::blocker(CODE, item.name(), says));
            }
        }
    }
    found
}

/// What fires a trigger on the old panel: that of the same name.
pub(super) fn on_panel<'a>(case: &Case<'a>, trigger: &DeviceTrigger) -> Option<&'a SirenTrigger> {
    case.job.panel.siren.get()?.triggers.iter().find(|t| t.trigger == trigger.trigger)
}
