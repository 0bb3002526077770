//! Hold-off, triggers, and how long a sounder sounds.

use super::Test;
use crate::land::{Plan, PlannedItem, PlannedTrigger};
use crate::model::{Item, Job, Reach};
use crate::pack::names::{core_of, destination, fires, item_name};
use crate::wording::listed;

/// Hold-off taken away from each sounder that has a battery of its own, or may have one.
pub(super) fn hold_off(job: &Job, plan: &Plan) -> Vec<Test> {
    let sounders = plan.items.iter().filter_map(|planned| Some((planned, job.items.get(planned.item)?)));
    sounders
        .filter(|(_, item)| item.device.may_self_activate())
        .map(|(planned, item)| lost(job, plan, planned, item))
        .collect()
}

fn lost(job: &Job, plan: &Plan, planned: &PlannedItem, item: &Item) -> Test {
    let held = plan.pair_of(planned.item);
    let cores = held.and_then(|pair| plan.cables.get(pair.cable)).map_or(&[][..], |c| c.cores.as_slice());
    let lifted = held.map_or(&[][..], |pair| pair.positive.as_slice()).iter().filter_map(|k| cores.get(*k));
    let cable = held.map_or(planned.cable, |pair| pair.cable);
    let names: Vec<String> = lifted
        .map(|core| format!("{} off {}", core_of(job, cable, &core.colour), destination(job, plan, cable, core)))
        .collect();
    let what = if names.is_empty() { "its hold-off, whose core is not known".to_string() } else { listed(&names) };
    let near = match item.served.and_then(|s| s.reach.as_ref()) {
        Some(Reach::None) => " It can't be reached: know first how it is silenced.",
        _ => "",
    };
    let expect = match item.device.self_activating {
        Some(_) => "sounds by its own battery; silent once the core is back",
        None => "not known whether it has a battery of its own: it may sound, or stay silent",
    };
    Test::new(
        item.name(),
        format!("Nobody near the sounder, ears protected: at the board lift {what}, for a few seconds.{near}"),
        expect,
    )
}

/// Each trigger fired alone.
pub(super) fn triggers(job: &Job, plan: &Plan) -> Vec<Test> {
    plan.triggers.iter().filter_map(|planned| trigger(job, plan, planned)).collect()
}

fn trigger(job: &Job, plan: &Plan, planned: &PlannedTrigger) -> Option<Test> {
    let trigger = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
    let output = job.board.outputs.get(planned.output)?;
    let cable = plan.item(planned.item)?.cable;
    let core = plan.cables.get(cable)?.cores.get(planned.core)?;
    let item = item_name(job, planned.item);
    let act = format!(
        "Fire output {} alone ({} on {}, {})",
        output.output,
        fires(trigger.fires),
        planned.terminal,
        core_of(job, cable, &core.colour)
    );
    let others = with_it(job, plan, planned);
    Some(Test::new(
        format!("{}: {}", item, trigger.trigger),
        act,
        format!("{} of {item} works{others}; stops when the output is back at rest", trigger.trigger),
    ))
}

/// What else the same output fires.
fn with_it(job: &Job, plan: &Plan, planned: &PlannedTrigger) -> String {
    let same = plan.triggers.iter().filter(|t| t.output == planned.output);
    let others = same.filter(|t| (t.item, t.trigger) != (planned.item, planned.trigger));
    let names: Vec<String> = others
        .filter_map(|t| {
            let trigger = job.items.get(t.item)?.device.triggers.get(t.trigger)?;
            Some(format!("{} of {}", trigger.trigger, item_name(job, t.item)))
        })
        .collect();
    if names.is_empty() { ", nothing else".into() } else { format!(", with {}", names.join(", ")) }
}

/// How long each sounder sounds.
pub(super) fn cut_off(job: &Job, plan: &Plan) -> Vec<Test> {
    let sounders = plan.items.iter().filter_map(|planned| job.items.get(planned.item));
    let expect = job.rules.siren_cut_off.map_or_else(
        || "not known: the rules used here give no time; hold it against local rules".to_string(),
        |time| format!("silent by itself within {time} (the rules used here; local rules may ask for less)"),
    );
    sounders
        .filter(|item| item.device.triggers.iter().any(|t| t.trigger != "strobe"))
        .map(|item| {
            let act = "From an alarm, not from the board's test: let it sound until it stops, and time it";
            Test::new(item.name(), act, expect.clone()).blank("stopped after ............ min")
        })
        .collect()
}
