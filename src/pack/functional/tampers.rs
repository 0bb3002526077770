//! Every tamper: the lid, and the back where there is one.

use super::Test;
use crate::choose::Method;
use crate::land::{Plan, PlannedItem};
use crate::model::{Fact, Item, Job, Reach};

const BOTH: &str = "lid ............ back ............";

pub(super) fn tests(job: &Job, plan: &Plan) -> Vec<Test> {
    let mut tests: Vec<Test> = plan.items.iter().filter_map(|planned| one(job, plan, planned)).collect();
    tests.push(
        Test::new(
            format!("{} itself", job.board.unit.name()),
            "Open its lid; lift it off the wall where it has a contact for that",
            "what it reports is not known: no card says whether it has a tamper of its own",
        )
        .blank(BOTH),
    );
    tests
}

/// The test of one item; `None`: it has no tamper contact.
fn one(job: &Job, plan: &Plan, planned: &PlannedItem) -> Option<Test> {
    let item = job.items.get(planned.item)?;
    let expect = match &item.device.tamper {
        Fact::Absent => return None,
        Fact::NotKnown => "not known whether it has a tamper contact: write down what is there".to_string(),
        Fact::Is(_) => watched(job, plan, planned, item),
    };
    Some(Test::new(item.name(), act(job, planned, item), expect).blank(BOTH))
}

/// Which input must report it.
fn watched(job: &Job, plan: &Plan, planned: &PlannedItem, item: &Item) -> String {
    let name = |input: usize| job.board.inputs.get(input).map_or("", |i| i.input.as_str());
    if planned.method == Method::DoubleEol
        && let Some(input) = planned.input
    {
        return format!("input {} reports tamper, set or not; then normal again", name(input));
    }
    match plan.tamper_loop().filter(|l| l.items.contains(&planned.item)) {
        Some(run) => format!("input {} (tamper loop) reports, set or not; then normal again", name(run.input)),
        None => {
            format!("NOTHING: the tamper of {} is not monitored in this plan. Customer told: ............", item.name())
        }
    }
}

/// What to do; a lid that nobody can reach can't be tried.
fn act(job: &Job, planned: &PlannedItem, item: &Item) -> String {
    let sounds = !item.device.triggers.is_empty();
    let care = if sounds { " Ears protected, board in its service state, safe footing" } else { "" };
    match item.served.and_then(|s| s.reach.as_ref()) {
        Some(Reach::None) => {
            let input = planned.input.and_then(|i| job.board.inputs.get(i)).map(|i| format!(" of input {}", i.input));
            format!(
                "CAN'T BE REACHED: lift a core of its tamper{} at the board instead; the lid stays untried",
                input.unwrap_or_default()
            )
        }
        Some(Reach::With(with)) => {
            format!("Open its lid; then the back, where it has a contact for that. Reached with: {with}.{care}")
        }
        None => format!("Open its lid; then the back, where it has a contact for that.{care}"),
    }
}
