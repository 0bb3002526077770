//! From the first telephone call to the last core lifted.

use super::Step;
use super::own::own_battery;
use super::sounder::{Bell, before_the_mains};
use crate::model::{BatteryState, Fact, Group, Job, MainsOff, Power, Reach, Unit};
use crate::pack::hangs::known_loads;
use crate::work::{Figures, Verdict};

/// The steps down, in order.
#[must_use]
pub(super) fn steps(job: &Job, figures: &Figures, bells: &[Bell]) -> Vec<Step> {
    let mut steps = vec![centre(job), ask(job), sound_once(bells), service(job, bells), look(job)];
    let own = own_battery(job, figures, bells);
    if before_the_mains(job, figures, bells) {
        steps.extend(own);
        steps.push(mains(job));
    } else {
        steps.push(mains(job));
        steps.extend(own);
    }
    steps.push(panel_battery(job, figures, bells));
    steps.push(lift(job));
    steps
}

fn centre(job: &Job) -> Step {
    let lines = match job.survey.monitored {
        Some(true) => {
            let mut lines = vec![
                "Ring the receiving centre and put the system on test.".to_string(),
                "Spoke to: ............................ On test until: ............................".to_string(),
            ];
            if job.survey.mains_fail_reported {
                lines.push("A mains failure is signalled away: say that the mains will be off.".into());
            }
            lines
        }
        Some(false) => vec![
            "Nobody watches this alarm from outside, the survey says.".into(),
            "Tell the people in the building and the neighbours before anything sounds.".into(),
        ],
        None => vec![
            "NOT ASKED whether a receiving centre watches this alarm. Ask now, and look for a communicator or a \
             telephone line at the panel."
                .into(),
            "If one does: put it on test. Spoke to: ............................ On test until: ............................".into(),
        ],
    };
    let title = match job.survey.monitored {
        Some(true) => "Receiving centre on test",
        Some(false) => "Tell those who will hear it",
        None => "Find out who watches this alarm",
    };
    Step::new("centre", title, lines)
}

fn ask(job: &Job) -> Step {
    let mut lines = vec![
        "Ask and write down: telephone line ............ smoke detectors ............ door locks ............ panic buttons ............ other \
         ............"
            .to_string(),
    ];
    lines.extend(known_loads(job));
    Step::new("ask", "Ask what else hangs on the panel", lines)
}

fn sound_once(bells: &[Bell]) -> Step {
    let lines = if bells.is_empty() {
        vec![
            "No external sounder was surveyed. Walk round the building and look for one before going on.".to_string(),
            "Sound whatever there is once, everybody warned, ears protected.".into(),
        ]
    } else {
        let names: Vec<&str> = bells.iter().map(|b| b.name.as_str()).collect();
        vec![format!(
            "Once, from the panel: {}. Everybody warned, ears protected, nobody on a ladder. What works today is \
             known afterwards.",
            names.join(" and ")
        )]
    };
    Step::new("sound", "Sound the sounder once", lines)
}

fn service(job: &Job, bells: &[Bell]) -> Step {
    let mut lines = vec![
        match job.survey.service_code {
            Some(true) => "The code is known. Enter it, choose the service state, wait for the panel to say so.",
            Some(false) => {
                "The code is NOT KNOWN. Until the panel is in its service state every lid opened is a tamper alarm. Get \
                 the code from the customer or the firm that looked after it, or agree the noise beforehand."
            }
            None => {
                "NOT ASKED whether the code is known. Ask before opening any lid: without it every lid opened is a \
                 tamper alarm."
            }
        }
        .to_string(),
    ];
    if let Some(quiet) = job.panel.unit.power.get().and_then(|p| p.quiet.as_ref()) {
        lines.push(format!("This panel stays quiet so: {quiet}"));
    }
    if bells.iter().any(Bell::may_activate) {
        lines.push("The service state does not silence a sounder that loses its hold-off.".into());
    }
    Step::new("service", "Old panel in its service state", lines)
}

fn look(job: &Job) -> Step {
    let mut lines = vec![format!(
        "Lid open, the mains screws are LIVE{}. One hand, insulated probes.",
        mains_marks(&job.panel.unit).map(|m| format!(": {m}")).unwrap_or_default()
    )];
    lines.push("Photograph the whole panel, every terminal strip, every fuse, every link.".into());
    let volts = job.panel.unit.terminals.iter().filter_map(|t| {
        let expected = t.volts.as_ref()?;
        let read = job.survey.readings.iter().find(|(mark, _)| *mark == t.mark);
        let before = read.map_or_else(|| "not read on the survey".into(), |(_, v)| format!("{v} on the survey"));
        Some(format!("{}: should be {expected}; {before}; now ............ V", t.mark))
    });
    lines.extend(volts);
    Step::new("look", "Photographs and live volts", lines)
}

/// The mains screws, with commas; `None` when the card does not give them.
#[must_use]
pub(in crate::pack) fn mains_marks(unit: &Unit) -> Option<String> {
    unit.mains.get().map(|m| m.terminals.join(", "))
}

fn mains(job: &Job) -> Step {
    let mut lines = match &job.survey.isolator {
        Fact::Is(place) => vec![format!("Switch off at: {place}. Lock it off, keep the key or the fuse.")],
        Fact::Absent => vec![
            "STOP: the survey found NO ISOLATOR. No work inside this panel until a person licensed to do it has fitted \
             one."
                .to_string(),
        ],
        Fact::NotKnown => vec![
            "NOT ASKED where the isolator is. Find it and prove that it is the right one. If there is none: STOP."
                .to_string(),
        ],
    };
    if !job.survey.isolator.is_absent() {
        lines.push(prove_dead(&job.panel.unit));
    }
    Step::new("mains", "Isolate the mains, prove it dead", lines)
}

/// How the mains is proved dead.
#[must_use]
pub(in crate::pack) fn prove_dead(unit: &Unit) -> String {
    match (&unit.mains, mains_marks(unit)) {
        (_, Some(marks)) => format!(
            "Prove the tester, test dead between every two of {marks}, and each against earth; prove the tester again."
        ),
        (Fact::Absent, _) => {
            "The card says this panel has no mains screws: find what feeds it, and prove that dead on every pair."
                .into()
        }
        (_, None) => "The mains screws are NOT KNOWN on the card: treat every screw as live until proved dead.".into(),
    }
}

fn panel_battery(job: &Job, figures: &Figures, bells: &[Bell]) -> Step {
    let mut lines = vec![match &job.survey.battery {
        Fact::Absent => "The survey found no battery. Look again; if there is one, treat it as below.".to_string(),
        Fact::NotKnown => "NOT ASKED whether a battery is there. Expect one.".into(),
        Fact::Is(old) if old.mains_off == Some(MainsOff::StaysUp) && figures.battery.verdict != Verdict::Replace => {
            "Take it off now: until here it held the panel up.".into()
        }
        Fact::Is(_) => "Take it off now.".into(),
    }];
    lines.push(format!(
        "Leads off{}, negative first, each lead insulated (common practice). No metal jewellery, insulated tools.",
        battery_marks(&job.panel.unit).map(|m| format!(" at {m}")).unwrap_or_default()
    ));
    let state = job.survey.battery.get().and_then(|b| b.state);
    if matches!(state, Some(BatteryState::Swollen | BatteryState::Leaking)) {
        lines.push("It was found swollen or leaking: gloves and goggles, do not charge it, carry it upright.".into());
    }
    if figures.battery.verdict == Verdict::Replace {
        lines.push("It does not go back: recycle it.".into());
    }
    if bells.iter().any(|b| b.may_activate() && !matches!(b.reach, Some(Reach::None))) {
        lines.push("From here on nothing holds a sounder off: its own battery must be out already.".into());
    }
    Step::new("battery", "Panel battery off", lines)
}

/// The battery's terminals or leads.
#[must_use]
pub(in crate::pack) fn battery_marks(unit: &Unit) -> Option<String> {
    let block = unit.power.get().and_then(|p| p.battery.get());
    let marks: Vec<&str> = match block {
        Some(battery) if !battery.terminals.is_empty() => battery.terminals.iter().map(String::as_str).collect(),
        _ => {
            let all = unit.terminals.iter();
            all.filter(|t| t.group == Some(Group::Battery)).map(|t| t.mark.as_str()).collect()
        }
    };
    (!marks.is_empty()).then(|| marks.join(" and "))
}

fn lift(job: &Job) -> Step {
    let mut lines = vec!["Label a core, lift it, insulate it; only then the next.".to_string()];
    let not_read: Vec<&str> = job.survey.cables.iter().filter(|c| c.ac.is_none()).map(|c| c.cable.as_str()).collect();
    if !not_read.is_empty() {
        lines.push(format!(
            "Alternating volts were not read on {}: read every core against earth first. Over 25 V AC: stop.",
            not_read.join(", ")
        ));
    }
    lines.push("With the cores off, measure each loop and compare it with the survey.".into());
    if !job.undecided.is_empty() {
        let names: Vec<&str> = job.undecided.iter().map(|(_, s)| s.item.as_str()).collect();
        lines.push(format!("Leave the cores of {} where they are: nobody has decided about them.", names.join(", ")));
    }
    if job.source.as_ref().is_some_and(|s| *s.power == Power::Panel) {
        lines.push(
            "The old panel stays on as the power supply: fit the links of the section that keeps it quiet before it \
             gets power again."
                .into(),
        );
    }
    if job.source.as_ref().is_some_and(|s| *s.power != Power::Panel) {
        lines.push(
            "The old panel comes out: its mains cable stays locked off until a person licensed to do it has ended it \
             safely or moved it to what takes the panel's place."
                .into(),
        );
    }
    Step::new("lift", "Label, then lift the cores one at a time", lines)
}
