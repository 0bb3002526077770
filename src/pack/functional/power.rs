//! Mains off, battery only, battery off.

use super::Test;
use crate::land::Plan;
use crate::model::{Fact, Job, Power};
use crate::pack::names::item_names;

pub(super) fn tests(job: &Job, plan: &Plan) -> Vec<Test> {
    let source = job.source.as_ref().map_or_else(|| "what feeds the board (not asked)".into(), |s| s.unit.name());
    let mut tests = vec![mains_off(job, &source)];
    tests.push(on_battery(job, plan));
    tests.push(Test::new(
        "Mains back",
        "Mains on again at the isolator",
        "the mains fault clears; nothing sounds; the battery takes charge",
    ));
    tests.push(Test::new(
        "Battery off, mains on",
        format!("One battery lead of {source} off, insulated; then on again"),
        "the board stays up, nothing sounds; whether it reports a battery fault is not known: no card says",
    ));
    tests
}

fn mains_off(job: &Job, source: &str) -> Test {
    let isolator = match &job.survey.isolator {
        Fact::Is(place) => format!("Mains off at: {place}. Leave it off for the next test"),
        Fact::Absent => "NO ISOLATOR: a licensed person fits one first".into(),
        Fact::NotKnown => "Mains off (where was NOT ASKED: find the isolator). Leave it off for the next test".into(),
    };
    let none = matches!(job.survey.battery, Fact::Absent) && job.survey.new_battery.is_none();
    let quiet = match job.source.as_ref().map(|s| s.power) {
        Some(Power::Panel) => "; the old panel stays silent",
        _ => "",
    };
    let expect = if none {
        "there is no battery and none is planned: the board goes dead, and a self-activating sounder sounds".to_string()
    } else {
        format!("the board stays up on the battery of {source}; a mains fault shows; nothing sounds{quiet}")
    };
    Test::new("Mains off", isolator, expect)
}

/// Everything once on the battery alone.
fn on_battery(job: &Job, plan: &Plan) -> Test {
    let sounders: Vec<usize> = plan.triggers.iter().map(|t| t.item).collect();
    let mut each = sounders.clone();
    each.dedup();
    let fired = if each.is_empty() { "nothing to fire".to_string() } else { item_names(job, &each) };
    Test::new(
        "Battery only",
        format!("Mains still off: everything in alarm at once, every sounder and strobe fired ({fired})"),
        "all of it works, no keypad or detector drops out; back to rest, no alarm stays",
    )
    .blank("battery ............ V")
}
