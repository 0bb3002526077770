//! What is not known or was not asked, each with what settles it.

use crate::judge::Judgement;
use crate::model::{CoreUse, Fact, Job, OldBattery, Reach};
use serde::Serialize;

/// Something that is open.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Unknown {
    /// What.
    pub what: String,
    /// `not known`, `not asked` or `not measured`.
    pub state: &'static str,
    /// What settles it.
    pub settle: String,
}

const NOT_KNOWN: [&str; 5] = ["not-known", "trigger-not-known", "quiet-not-known", "cutoff-assumed", "confirm-on-site"];

/// Everything open, findings first.
#[must_use]
pub fn unknowns(job: &Job, judgement: &Judgement) -> Vec<Unknown> {
    let mut list: Vec<Unknown> = judgement
        .findings
        .iter()
        .filter(|f| NOT_KNOWN.contains(&f.code))
        .map(|f| Unknown { what: super::head::about(job, &f.about), state: state(f.code), settle: f.says.clone() })
        .collect();
    list.extend(site(job));
    list.extend(battery(job));
    list.extend(cables(job));
    list
}

fn state(code: &str) -> &'static str {
    match code {
        "confirm-on-site" => "to be confirmed",
        "cutoff-assumed" => "assumed",
        _ => "not known",
    }
}

fn not_asked(what: &str, settle: &str) -> Unknown {
    Unknown { what: what.into(), state: "not asked", settle: settle.into() }
}

fn site(job: &Job) -> Vec<Unknown> {
    let survey = job.survey;
    let mut list = Vec::new();
    if survey.isolator.is_not_known() {
        list.push(not_asked("Mains isolator", "Find it, switch it off, prove that the panel is dead."));
    }
    if survey.monitored.is_none() {
        list.push(not_asked("Receiving centre", "Ask the customer; look for a communicator or a telephone line."));
    }
    if survey.service_code.is_none() {
        list.push(not_asked("Old panel's service code", "Ask whether it is known; never write it down here."));
    }
    if survey.power.is_none() {
        list.push(not_asked("Power source", "Say in the survey what feeds the board: panel, board or a supply."));
    }
    if survey.grade.is_none() {
        list.push(not_asked("Grade", "Ask the customer or the insurer."));
    }
    if !survey.temperature_given {
        list.push(Unknown {
            what: "Temperature at battery and cables".into(),
            state: "not asked",
            settle: "20 °C was assumed; measure where the battery stands.".into(),
        });
    }
    list
}

fn battery(job: &Job) -> Vec<Unknown> {
    let old: &OldBattery = match &job.survey.battery {
        Fact::NotKnown => {
            return vec![not_asked("Old battery", "Look whether there is one; read its capacity and date.")];
        }
        Fact::Absent => return Vec::new(),
        Fact::Is(old) => old,
    };
    let rows = [
        (old.capacity.is_none(), "Old battery's capacity", "not read", "Read the label."),
        (old.made.is_none(), "Old battery's date", "not read", "Read the code on the case."),
        (old.state.is_none(), "Old battery's looks", "not asked", "Look for a swollen case and for leaks."),
        (old.rest.is_none(), "Old battery at rest", "not tested", "Leads off, 8 h at rest, read the volts."),
        (
            old.mains_off.is_none(),
            "Panel with the mains off",
            "not tested",
            "Only with the sounder's own battery isolated: mains off, see whether the panel stays up.",
        ),
        (
            old.load.is_none(),
            "Old battery under load",
            "not tested",
            "5 to 10 % of its capacity in amperes for 10 to 30 min, read the volts (common practice).",
        ),
    ];
    let open = rows.into_iter().filter(|(open, ..)| *open);
    open.map(|(_, what, state, settle)| Unknown { what: what.into(), state, settle: settle.into() }).collect()
}

fn cables(job: &Job) -> Vec<Unknown> {
    let mut list = Vec::new();
    for cable in &job.cables {
        let name = &cable.survey.cable;
        let colours: Vec<&str> = cable.cores.iter().filter(|c| c.on == CoreUse::Unknown).map(|c| c.colour).collect();
        if !colours.is_empty() {
            list.push(Unknown {
                what: format!("{name}: {}", colours.join(", ")),
                state: "not known",
                settle: "Trace at both ends; until then treat as live.".into(),
            });
        }
        if cable.survey.ac.is_none() {
            list.push(Unknown {
                what: format!("{name}: alternating volts"),
                state: "not measured",
                settle: "Cores off the panel, every core against earth. Over 25 V AC: stop.".into(),
            });
        }
        for served in &cable.survey.serves {
            let device = job.library.devices.get(&served.device);
            if served.reach.is_none() && device.is_some_and(crate::model::Device::may_self_activate) {
                list.push(not_asked(
                    &format!("How {} is reached", served.item),
                    "Look: what ladder or platform, and is the ground fit for it?",
                ));
            }
            if served.reach == Some(Reach::None) {
                list.push(Unknown {
                    what: served.item.clone(),
                    state: "can't be reached",
                    settle: "What is inside it stays unconfirmed; plan for its noise.".into(),
                });
            }
        }
    }
    list
}
