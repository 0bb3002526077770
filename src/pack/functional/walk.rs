//! The walk test: every served device by itself.

use super::Test;
use crate::choose::Method;
use crate::land::{Plan, PlannedItem};
use crate::model::{DeviceClass, Item, Job};
use crate::pack::names::reaction;
use crate::wording::listed;

pub(super) fn tests(job: &Job, plan: &Plan) -> Vec<Test> {
    plan.items.iter().filter_map(|planned| one(job, plan, planned)).collect()
}

fn one(job: &Job, plan: &Plan, planned: &PlannedItem) -> Option<Test> {
    let item = job.items.get(planned.item)?;
    let does = item.device.does.as_deref().map(|d| format!(": {d}")).unwrap_or_default();
    Some(Test::new(format!("{}{does}", item.name()), act(item), expect(job, plan, planned, item)))
}

/// What to do to a device.
fn act(item: &Item) -> &'static str {
    match item.device.class {
        Some(DeviceClass::Detector) => {
            "Make it detect as its maker says: at the near and the far edge of what it watches"
        }
        Some(DeviceClass::Contact) => "Open it slowly, note the gap at which it reports; shut it again",
        Some(DeviceClass::Button) => "Press it, once everybody knows; reset it",
        Some(DeviceClass::Keypad) => "Every key, lamp and tone; unset and set from it",
        Some(DeviceClass::Sounder | DeviceClass::ExternalSounder | DeviceClass::Speaker) => {
            "Fire all of it once from an alarm; look and listen from where it must be heard"
        }
        Some(DeviceClass::Other) | None if !item.device.triggers.is_empty() => "Fire all of it once from an alarm",
        Some(DeviceClass::Other) | None => "Make it do what it is for",
    }
}

/// What must be seen then.
fn expect(job: &Job, plan: &Plan, planned: &PlannedItem, item: &Item) -> String {
    let input = planned.input.and_then(|i| job.board.inputs.get(i));
    if let Some(input) = input.filter(|_| planned.method.wiring().is_some()) {
        let shared = plan.loops.iter().any(|l| !l.tamper && Some(l.input) == planned.input && l.items.len() > 1);
        let alone = if shared { ", the others on it at rest" } else { "" };
        return format!(
            "input {} reports alarm{alone}, then normal again; {}",
            input.input,
            reaction(item.fit.reaction)
        );
    }
    if !item.device.triggers.is_empty() {
        let names: Vec<&str> = item.device.triggers.iter().map(|t| t.trigger.as_str()).collect();
        let work = if names.len() == 1 { "works" } else { "work" };
        return format!("{} {work}; all silent and dark again afterwards", listed(&names));
    }
    if item.device.data > 0 {
        return "the board answers each; the display shows the true state".into();
    }
    match planned.method {
        Method::TamperOnly => "it does it; its tamper is tested below".into(),
        _ => "it does it; the board reports nothing, for no contact of it is wired".into(),
    }
}
