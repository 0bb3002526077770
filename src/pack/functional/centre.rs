//! Each signal to the receiving centre.

use super::Test;
use crate::land::Plan;
use crate::model::{Fact, Job, Reaction};

const ARRIVED: &str = "arrived at ............ as ............";

pub(super) fn tests(job: &Job, plan: &Plan) -> Vec<Test> {
    match job.survey.monitored {
        Some(true) => signals(job, plan),
        Some(false) => {
            vec![Test::new("Signals", "None to test: nobody watches this alarm from outside", "nothing is sent")]
        }
        None => vec![Test::new(
            "Signals",
            "NOT ASKED whether a receiving centre watches. If one does, send each: alarm, panic, tamper, mains fault, \
             battery fault, set and unset",
            "each arrives under its own name, and its end too",
        )
        .blank(ARRIVED)],
    }
}

fn signals(job: &Job, plan: &Plan) -> Vec<Test> {
    let arrives = |what: &str| format!("{what} arrives under its own name, and its end too");
    let mut tests = Vec::new();
    let mut send =
        |about: String, act: String, expect: String| tests.push(Test::new(about, act, expect).blank(ARRIVED));
    let items: Vec<_> =
        plan.items.iter().filter(|p| p.method.wiring().is_some()).filter_map(|p| job.items.get(p.item)).collect();
    let burglar = items.iter().find(|i| matches!(i.fit.reaction, Reaction::Instant | Reaction::Entry));
    if let Some(item) = burglar {
        send("Alarm".into(), format!("Set; then an alarm from {}", item.name()), arrives("alarm"));
    }
    for item in items.iter().filter(|i| matches!(i.fit.reaction, Reaction::Panic | Reaction::AllDay)) {
        let what = if item.fit.reaction == Reaction::Panic { "panic" } else { "24 h alarm" };
        send(format!("{what}: {}", item.name()), format!("Alarm from {}", item.name()), arrives(what));
    }
    if plan.items.iter().any(|p| job.items.get(p.item).is_some_and(|i| matches!(i.device.tamper, Fact::Is(_)))) {
        send("Tamper".into(), "Open one lid that is watched".into(), arrives("tamper"));
    }
    let mains = if job.survey.mains_fail_reported {
        arrives("mains fault")
    } else {
        "the survey does not say that it is signalled away: ask the centre whether it should be".into()
    };
    send("Mains fault".into(), "Mains off, as long as the board waits before it reports".into(), mains);
    let not_known = "whether it is signalled away was not asked: write down what the centre got";
    send("Battery fault".into(), "One battery lead off, insulated".into(), not_known.into());
    send("Set and unset".into(), "Set, then unset".into(), not_known.into());
    send("Line lost".into(), "Line or path unplugged, as long as the board waits".into(), not_known.into());
    tests
}
