//! From the first telephone call to the last core lifted.

use super::Step;
use super::sounder::{Bell, Fate, activating, before_the_mains, no_battery, reach, stayed_up};
use crate::model::{BatteryState, Fact, Group, Job, MainsOff, Power, Reach};
use crate::pack::hangs::known_loads;
use crate::pack::names::CoreName;
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
        mains_marks(job).map(|m| format!(": {m}")).unwrap_or_default()
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
fn mains_marks(job: &Job) -> Option<String> {
    job.panel.unit.mains.get().map(|m| m.terminals.join(", "))
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
        lines.push(prove_dead(job));
    }
    Step::new("mains", "Isolate the mains, prove it dead", lines)
}

/// How the mains is proved dead.
fn prove_dead(job: &Job) -> String {
    match (&job.panel.unit.mains, mains_marks(job)) {
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

/// The step that isolates the sounders' own batteries; `None` when none may have one.
fn own_battery(job: &Job, figures: &Figures, bells: &[Bell]) -> Option<Step> {
    let any = bells.iter().any(Bell::may_activate);
    if !any {
        return None;
    }
    let first = before_the_mains(job, figures, bells);
    let why = if !first {
        "The mains is off; the panel's battery was seen to carry it and still holds the sounder off."
    } else if no_battery(job) {
        "The mains is still ON and must stay on: no battery is there, so switching off would sound it at head height."
    } else if figures.battery.verdict == Verdict::Replace {
        "The mains is still ON and must stay on: the battery is not fit to hold the sounder off."
    } else if stayed_up(job) {
        "The mains is still ON and stays on until the sounder that can't be reached is held off by something else."
    } else {
        "The mains is still ON and must stay on: nobody has seen the panel stay up on its battery, so switching off may \
         sound it at head height."
    };
    let mut lines = vec![why.to_string()];
    for bell in bells {
        lines.extend(one_bell(job, bell));
    }
    let reachable = bells.iter().any(|b| b.may_activate() && !b.out_of_reach());
    let title = if !reachable {
        "BEFORE the mains is touched: keep the sounder held off, for it can't be reached"
    } else if first {
        "BEFORE the mains is touched: isolate the sounder's own battery"
    } else {
        "Isolate the sounder's own battery while the panel still holds it off"
    };
    Some(Step::new("own-battery", title, lines))
}

/// What to do at one sounder.
fn one_bell(job: &Job, bell: &Bell) -> Vec<String> {
    if !bell.may_activate() {
        return vec![format!("{}: {}. Nothing to do here.", bell.name, activating(bell))];
    }
    let mut lines = vec![format!("{} (cable {}): {}; {}.", bell.name, bell.cable, activating(bell), reach(bell))];
    if bell.out_of_reach() {
        lines.push(format!(
            "{}: keep its hold-off alive. Put a separate fused 12 V battery across {}, polarity proved; with it on, lift \
             both cores off the panel and insulate them; leave it on until the new board holds the sounder off. Or agree \
             the noise beforehand with all who will hear it, ears protected, nobody near it (common practice).",
            bell.name,
            hold_off_cores(job, &bell.cable)
        ));
        lines.extend(removed_triggers(job, bell));
        return lines;
    }
    lines.push(format!(
        "{}: ears protected, safe footing. Open the lid (water inside: stop), unplug or lift its own battery, see that \
         it stays silent.",
        bell.name
    ));
    if bell.reach.is_none() {
        lines.push(format!("{}: if it turns out that it can't be reached, stop and plan again.", bell.name));
    }
    if bell.fate == Fate::Goes {
        lines.push(format!("{}: it is taken away, so its battery stays out.", bell.name));
    }
    lines
}

/// Triggers that fire by being taken away: lifting their core sounds a sounder that still has its feed.
fn removed_triggers(job: &Job, bell: &Bell) -> Option<String> {
    let triggers = job.panel.siren.get().map_or(&[][..], |s| s.triggers.as_slice());
    let marks: Vec<&str> =
        triggers.iter().filter(|t| t.fires.is_none_or(|f| !f.is_applied())).map(|t| t.terminal.as_str()).collect();
    (!marks.is_empty()).then(|| {
        format!(
            "{}: {} fires by being taken away, or nobody knows how: do not lift that core while the sounder has its feed.",
            bell.name,
            marks.join(" and ")
        )
    })
}

/// The cores on which a sounder is held off, in words.
fn hold_off_cores(job: &Job, cable: &str) -> String {
    let siren = job.panel.siren.get();
    let marks: Vec<&String> =
        siren.map(|s| [s.hold_off.get(), s.negative.get()].into_iter().flatten().collect()).unwrap_or_default();
    let cores = job.cables.iter().filter(|c| c.survey.cable == cable).flat_map(|c| &c.cores);
    let names: Vec<String> = cores
        .filter(|c| matches!(&c.on, crate::model::CoreUse::Mark(m) if marks.contains(&m)))
        .map(|c| format!("{} {cable} on {}", CoreName::new(c.colour).text(), c.on.word()))
        .collect();
    if names.is_empty() { "its hold-off cores (NOT KNOWN: trace them first)".into() } else { names.join(" and ") }
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
        battery_marks(job).map(|m| format!(" at {m}")).unwrap_or_default()
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
fn battery_marks(job: &Job) -> Option<String> {
    let block = job.panel.unit.power.get().and_then(|p| p.battery.get());
    let marks: Vec<&str> = match block {
        Some(battery) if !battery.terminals.is_empty() => battery.terminals.iter().map(String::as_str).collect(),
        _ => {
            let all = job.panel.unit.terminals.iter();
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
