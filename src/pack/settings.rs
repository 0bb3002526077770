//! The settings list: input by input, what to tell the board, and what each unused input needs.

use super::links::LinkRow;
use super::names::{fires, item_name, item_names, reaction, wiring};
use crate::land::{Plan, PlannedLoop};
use crate::model::{Input, Job, Wiring};
use serde::Serialize;

/// The settings as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SettingsView {
    /// Every input, in the board's order.
    pub inputs: Vec<SettingRow>,
    /// Every output that fires something.
    pub outputs: Vec<OutputRow>,
    /// The end-of-line resistors, tolerance and sounder time.
    pub general: Vec<General>,
}

/// One input.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SettingRow {
    /// Its name.
    pub input: String,
    /// Its two screws.
    pub screws: String,
    /// What to call it.
    pub name: String,
    /// How to set its wiring.
    pub wiring: String,
    /// How it must react.
    pub reaction: String,
    /// What an unused one needs; empty for a used one.
    pub needs: String,
}

/// One output.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OutputRow {
    /// Its name.
    pub output: String,
    /// What it fires.
    pub fires: String,
    /// How.
    pub how: String,
}

/// A setting of the board as a whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct General {
    /// Which.
    pub what: &'static str,
    /// The value.
    pub text: String,
}

/// The settings of a job.
#[must_use]
pub fn settings(job: &Job, plan: &Plan) -> SettingsView {
    SettingsView {
        inputs: job.board.inputs.iter().enumerate().map(|(at, input)| row(job, plan, at, input)).collect(),
        outputs: outputs(job, plan),
        general: general(job),
    }
}

/// The loop on an input, if there is one.
fn loop_on(plan: &Plan, input: usize) -> Option<&PlannedLoop> {
    plan.loops.iter().find(|l| l.input == input)
}

fn row(job: &Job, plan: &Plan, at: usize, input: &Input) -> SettingRow {
    let screws = format!("{} and {}", input.out, input.back);
    let (name, wired, reacts, needs) = match loop_on(plan, at) {
        Some(run) if run.tamper => {
            let name = format!("Tamper: {}", item_names(job, &run.items));
            (name, wiring(Some(run.wiring)).to_string(), "tamper, 24 h".to_string(), String::new())
        }
        Some(run) => {
            (item_names(job, &run.items), wiring(Some(run.wiring)).to_string(), reactions(job, run), String::new())
        }
        None => {
            let (wired, fit) = rest(job, input);
            ("not used".to_string(), wiring(wired).to_string(), "off, if the board can switch it off".to_string(), fit)
        }
    };
    SettingRow { input: input.input.clone(), screws, name, wiring: wired, reaction: reacts, needs }
}

/// The reactions of a loop's items, each once.
fn reactions(job: &Job, run: &PlannedLoop) -> String {
    let mut words: Vec<&str> = Vec::new();
    for item in run.items.iter().filter_map(|i| job.items.get(*i)) {
        let word = reaction(item.fit.reaction);
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.join("; ")
}

/// How an unused input is set, and what closes it: a link for a closed loop, else the board's resistor.
fn rest(job: &Job, input: &Input) -> (Option<Wiring>, String) {
    let (a, b) = (&input.out, &input.back);
    let eol = &job.board.eol;
    let resistor = |value: Option<crate::units::Ohms>| match value {
        Some(value) => format!("{value} across {a} and {b}"),
        None => format!("the board's resistor, of a value that is not known, across {a} and {b}"),
    };
    if input.accepts.contains(&Wiring::ClosedLoop) {
        (Some(Wiring::ClosedLoop), format!("link from {a} to {b}"))
    } else if input.accepts.contains(&Wiring::SingleEol) {
        (Some(Wiring::SingleEol), resistor(eol.single))
    } else if input.accepts.contains(&Wiring::DoubleEol) {
        (Some(Wiring::DoubleEol), resistor(eol.double.map(|d| d.end)))
    } else {
        (None, "not known: read the board's manual".into())
    }
}

/// The links and resistors that the unused inputs need, in the board's order.
#[must_use]
pub fn unused_inputs(job: &Job, plan: &Plan) -> Vec<LinkRow> {
    let unused = job.board.inputs.iter().enumerate().filter(|(at, _)| loop_on(plan, *at).is_none());
    unused
        .filter_map(|(_, input)| {
            let (wired, _) = rest(job, input);
            Some(LinkRow {
                fit: match wired? {
                    Wiring::ClosedLoop => "link".into(),
                    Wiring::SingleEol => value(job.board.eol.single),
                    Wiring::DoubleEol => value(job.board.eol.double.map(|d| d.end)),
                },
                from: input.out.clone(),
                to: input.back.clone(),
                value: match wired? {
                    Wiring::ClosedLoop => None,
                    Wiring::SingleEol => Some(short(job.board.eol.single)),
                    Wiring::DoubleEol => Some(short(job.board.eol.double.map(|d| d.end))),
                },
                why: format!("input {} is not used", input.input),
            })
        })
        .collect()
}

/// A resistor in words.
fn value(ohms: Option<crate::units::Ohms>) -> String {
    ohms.map_or_else(|| "the board's resistor, value not known,".into(), |o| format!("{o} resistor"))
}

/// A resistor's value as a drawing says it.
fn short(ohms: Option<crate::units::Ohms>) -> String {
    ohms.map_or_else(|| "?".into(), |o| o.to_string())
}

/// Every output that fires something, in the board's order.
fn outputs(job: &Job, plan: &Plan) -> Vec<OutputRow> {
    let all = job.board.outputs.iter().enumerate();
    all.map(|(at, output)| {
        let used: Vec<_> = plan.triggers.iter().filter(|t| t.output == at).collect();
        let names = used.iter().filter_map(|t| {
            let trigger = job.items.get(t.item)?.device.triggers.get(t.trigger)?;
            Some((format!("{} of {}", trigger.trigger, item_name(job, t.item)), fires(trigger.fires)))
        });
        let names: Vec<(String, &str)> = names.collect();
        let how = names.first().map_or_else(|| "leave at rest".to_string(), |(_, how)| (*how).to_string());
        let list = names.into_iter().map(|(name, _)| name).collect::<Vec<_>>().join(", ");
        OutputRow {
            output: output.output.clone(),
            fires: if list.is_empty() { "nothing: not used".into() } else { list },
            how,
        }
    })
    .collect()
}

/// Settings of the board as a whole.
fn general(job: &Job) -> Vec<General> {
    let known = |text: Option<String>| text.unwrap_or_else(|| "not known".into());
    let eol = &job.board.eol;
    vec![
        General { what: "Single end-of-line resistor", text: known(eol.single.map(|o| o.to_string())) },
        General {
            what: "Double end-of-line resistors",
            text: known(eol.double.map(|d| format!("{} at the end, {} across the alarm contact", d.end, d.alarm))),
        },
        General {
            what: "Longest time a sounder may sound",
            text: known(
                job.rules.siren_cut_off.map(|h| format!("{h} by the rules used here; local rules may ask for less")),
            ),
        },
    ]
}
