//! From the bare board to the call that ends the test.

use super::Step;
use super::sounder::{Bell, Fate, order};
use crate::land::{Plan, PlannedTrigger};
use crate::model::{DeviceClass, Fires, Job, Power, Reach, Reconnect};
use crate::pack::names::{core_of, item_names};

/// The steps back, in order.
#[must_use]
pub(super) fn steps(job: &Job, plan: &Plan, bells: &[Bell]) -> Vec<Step> {
    let mut steps = vec![bare(job), groups(job, plan)];
    steps.push(sounders(job, plan, bells));
    steps.push(test(job, plan));
    steps.push(centre(job));
    steps
}

fn bare(job: &Job) -> Step {
    let mut lines = vec!["Nothing but its feed on the new board.".to_string()];
    lines.push(power(job));
    if let Some(volts) = job.board.feed.as_ref().and_then(|f| f.volts) {
        lines.push(format!("At its feed screws: {volts}; read ............ V."));
    } else {
        lines.push("What it must be fed is NOT KNOWN on its card: read the maker's paper before switching on.".into());
    }
    lines.push("No heat, no smell, no blown fuse after five minutes (common practice).".into());
    Step::new("bare", "Power the new board bare", lines)
}

/// What gives it power.
fn power(job: &Job) -> String {
    let Some(source) = &job.source else {
        return "NOT ASKED what feeds the board: settle that before switching anything on.".into();
    };
    let name = source.unit.name();
    let out = source.block.and_then(|b| b.out.as_ref()).map(|(p, n)| format!(" at {p} and {n}")).unwrap_or_default();
    let volts = source.block.and_then(|b| b.volts).map(|v| format!(", {v}")).unwrap_or_default();
    match source.power {
        Power::Panel => format!(
            "{name} stays on: its links fitted, its battery on, then the mains. Check it is quiet, then its output{out}\
             {volts}, then connect the board."
        ),
        Power::Supply(_) => format!("{name}: mains on, its battery on, output checked{out}{volts}, then the board."),
        Power::Board => "The board's own supply: mains on, then its battery.".into(),
    }
}

fn groups(job: &Job, plan: &Plan) -> Step {
    let mut lines = Vec::new();
    let fed: Vec<usize> = plan.items.iter().map(|p| p.item).filter(|i| plan.pair_of(*i).is_some()).collect();
    let held_back = |item: &usize| !sounds(job, *item) && !is_keypad(job, *item);
    let supply: Vec<usize> = fed.iter().copied().filter(held_back).collect();
    let keypads: Vec<usize> = plan.items.iter().map(|p| p.item).filter(|i| is_keypad(job, *i)).collect();
    let mut group = |what: &str, names: String| {
        if !names.is_empty() {
            lines.push(format!("{what}: {names}."));
        }
    };
    group("Supply, then measure at the far end", item_names(job, &supply));
    group("Keypads", item_names(job, &keypads));
    let inputs: Vec<String> = plan
        .loops
        .iter()
        .filter(|l| !l.tamper)
        .filter_map(|l| Some(format!("{} ({})", job.board.inputs.get(l.input)?.input, item_names(job, &l.items))))
        .collect();
    group("Inputs, each read with the meter before it is landed", inputs.join("; "));
    if let Some(run) = plan.tamper_loop() {
        group("Tamper loop", item_names(job, &run.items));
    }
    lines.push("Sounders come last: next step.".into());
    Step::new("groups", "Connect in groups: supply, keypads, inputs, tampers", lines)
}

/// Whether an item sits on the keypad bus.
fn is_keypad(job: &Job, item: usize) -> bool {
    job.items.get(item).is_some_and(|i| i.device.data > 0)
}

/// Whether an item is a sounder of any kind.
fn sounds(job: &Job, item: usize) -> bool {
    job.items.get(item).is_some_and(|i| !i.device.triggers.is_empty())
}

fn sounders(job: &Job, plan: &Plan, bells: &[Bell]) -> Step {
    let mut lines = vec!["Board in its service state. Ears protected.".to_string()];
    let items: Vec<usize> = plan.items.iter().map(|p| p.item).filter(|i| sounds(job, *i)).collect();
    for item in &items {
        lines.extend(one(job, plan, *item, bells));
    }
    if items.is_empty() {
        lines.push("The plan serves no sounder.".into());
    }
    lines.push("Fire it only from the ground, nobody on a ladder.".into());
    Step::new("sounders", "Sounders last", lines)
}

/// How one sounder goes back.
fn one(job: &Job, plan: &Plan, at: usize, bells: &[Bell]) -> Vec<String> {
    let Some(item) = job.items.get(at) else { return Vec::new() };
    let name = item.name();
    let idle: Vec<String> = plan.triggers.iter().filter(|t| t.item == at).filter_map(|t| idle(job, plan, t)).collect();
    let bell = bells.iter().find(|b| b.name == name && b.fate == Fate::Kept);
    let external = item.device.class == Some(DeviceClass::ExternalSounder) || item.device.may_self_activate();
    if !external {
        return vec![format!("{name}: {}; then connect it.", idle.join("; "))];
    }
    let out_of_reach = bell.is_some_and(|b| b.reach == Some(Reach::None));
    let place = if out_of_reach { "at the board's end, for it can't be reached" } else { "at the sounder's end" };
    let idle = idle.join("; ");
    if !item.device.may_self_activate() {
        let prove = format!("{name}: prove {place} that every trigger is idle: {idle}.");
        return vec![prove, format!("{name}: no battery of its own. Connect it, lid on, down.")];
    }
    let mut lines = vec![format!("{name}: prove {place} that hold-off is there and every trigger idle: {idle}.")];
    if item.device.reconnect.is_none() {
        lines.push(format!("{name}: the order is {}.", order(None)));
    }
    if out_of_reach {
        lines.push(format!("{name}: move its hold-off from the separate battery to the board without a break."));
        return lines;
    }
    lines.push(match item.device.reconnect {
        Some(Reconnect::BatteryFirst) => {
            format!("{name}: its own battery, then at once the hold-off; lid on, down.")
        }
        Some(Reconnect::HoldOffFirst) | None => format!("{name}: hold-off, then its own battery; lid on, down."),
    });
    lines
}

/// What an idle trigger must show, in words.
fn idle(job: &Job, plan: &Plan, planned: &PlannedTrigger) -> Option<String> {
    let trigger = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
    let cable = plan.item(planned.item)?.cable;
    let core = plan.cables.get(cable)?.cores.get(planned.core)?;
    let shows = match trigger.fires? {
        Fires::NegativeApplied => "NOT at negative",
        Fires::NegativeRemoved => "at negative (0 V against supply −)",
        Fires::PositiveApplied => "NOT at positive",
        Fires::PositiveRemoved => "at positive (full volts against supply −)",
    };
    Some(format!("{} on {} {shows}", trigger.trigger, core_of(job, cable, &core.colour)))
}

fn test(job: &Job, plan: &Plan) -> Step {
    let names = item_names(job, &plan.items.iter().map(|p| p.item).collect::<Vec<_>>());
    Step::new(
        "test",
        "Test",
        vec![
            format!("Every item, alarm and lid: {names}."),
            "Mains off: the board must stay up on the battery; mains on again.".into(),
            "Every figure that the meter shows against the tables; what differs is written down.".into(),
        ],
    )
}

fn centre(job: &Job) -> Step {
    let lines = match job.survey.monitored {
        Some(false) => vec!["Tell those in the building and the neighbours that it is done.".to_string()],
        Some(true) => vec!["Take the system off test. Spoke to: ............................ At: ............................".into()],
        None => vec!["If a receiving centre watches: off test. Spoke to: ............................ At: ............................".into()],
    };
    let title =
        if job.survey.monitored == Some(false) { "Tell those who heard it" } else { "Receiving centre off test" };
    Step::new("centre-off", title, lines)
}
