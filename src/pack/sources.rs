//! The sources of all facts, each with how it is known.

use super::known::{Known, known, known_at, known_block, known_terminal};
use crate::model::{Cite, Fact, Job, Output, OutputKind, SourceText, Unit};
use serde::Serialize;

/// A card with its sources and facts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SourceGroup {
    /// The card.
    pub card: String,
    /// Its sources.
    pub sources: Vec<SourceRow>,
    /// Its facts.
    pub facts: Vec<FactRow>,
}

/// A source.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SourceRow {
    /// The word that cites use.
    pub key: String,
    /// How it knows.
    pub how: &'static str,
    /// Title and date, as far as the card gives them.
    pub title: String,
}

/// A fact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FactRow {
    /// What it is about.
    pub what: String,
    /// How it is known.
    pub known: Known,
}

/// The cards of a job with sources and facts: panel, board, power source; devices by their sources alone.
#[must_use]
pub fn sources(job: &Job) -> Vec<SourceGroup> {
    let mut groups = vec![panel(job), board(job)];
    if let Some(source) = job.source.as_ref().filter(|s| matches!(s.power, crate::model::Power::Supply(_))) {
        groups.push(SourceGroup {
            card: source.unit.name(),
            sources: rows(&source.unit.sources),
            facts: unit_facts(source.unit),
        });
    }
    let mut seen: Vec<&str> = Vec::new();
    let served = job.survey.cables.iter().flat_map(|c| &c.serves).map(|s| &s.device);
    let fitted = job.items.iter().map(|i| &i.device.id);
    for id in served.chain(fitted) {
        let Some(device) = job.library.devices.get(id) else { continue };
        if seen.contains(&id.as_str()) || device.sources.is_empty() {
            continue;
        }
        seen.push(id);
        let names: Vec<&str> = [&device.maker, &device.model].into_iter().flatten().map(String::as_str).collect();
        let card = if names.is_empty() { id.clone() } else { names.join(" ") };
        groups.push(SourceGroup { card, sources: rows(&device.sources), facts: Vec::new() });
    }
    groups
}

fn rows(sources: &[SourceText]) -> Vec<SourceRow> {
    sources
        .iter()
        .map(|s| SourceRow {
            key: s.key.clone(),
            how: s.how.word(),
            title: match (&s.title, s.date) {
                (Some(title), Some(date)) => format!("{title}, {date}"),
                (Some(title), None) => title.clone(),
                (None, Some(date)) => date.to_string(),
                (None, None) => "no title given".into(),
            },
        })
        .collect()
}

fn fact(what: impl Into<String>, cites: &[Cite]) -> FactRow {
    FactRow { what: what.into(), known: known(cites) }
}

/// The facts that any unit has.
fn unit_facts(unit: &Unit) -> Vec<FactRow> {
    let mut facts: Vec<FactRow> = Vec::new();
    facts.extend(unit.mains.get().map(|m| fact("Mains", &m.cite)));
    let at = |what: &str, mark: &str, known: Known| FactRow { what: format!("{what} {mark}"), known };
    facts.extend(unit.terminals.iter().map(|t| at("Terminal", &t.mark, known_terminal(t))));
    facts.extend(unit.fuses.iter().map(|f| at("Fuse", &f.mark, known_at(&f.cite, f.evidence))));
    facts.extend(unit.links.iter().map(|l| at("Link", &l.mark, known_at(&l.cite, l.evidence))));
    if let Fact::Is(power) = &unit.power {
        facts.push(with_terminals(unit, "Power", &power.cite, power.out.iter().flat_map(|(p, n)| [p, n])));
        if let Fact::Is(battery) = &power.battery {
            facts.push(with_terminals(unit, "Battery", &battery.cite, battery.terminals.iter()));
        }
    }
    if let Fact::Is(keypad) = &unit.keypad {
        let marks = keypad.positive.iter().chain(&keypad.negative).chain(&keypad.data);
        facts.push(with_terminals(unit, "Keypad", &keypad.cite, marks));
    }
    facts
}

/// The fact of a block, which may have no cite of its own.
fn with_terminals<'a>(unit: &Unit, what: &str, own: &[Cite], marks: impl IntoIterator<Item = &'a String>) -> FactRow {
    FactRow { what: what.into(), known: known_block(unit, own, marks) }
}

fn panel(job: &Job) -> SourceGroup {
    let unit = &job.panel.unit;
    let mut facts = unit_facts(unit);
    for zone in &job.panel.zones {
        facts.push(with_terminals(
            unit,
            &format!("Zone {}", zone.zone),
            &zone.pair.cite,
            [&zone.pair.out, &zone.pair.back],
        ));
    }
    if let Fact::Is(pair) = &job.panel.tamper {
        facts.push(with_terminals(unit, "Tamper", &pair.cite, [&pair.out, &pair.back]));
    }
    if let Fact::Is(siren) = &job.panel.siren {
        let marks = siren
            .hold_off
            .get()
            .into_iter()
            .chain(siren.negative.get())
            .chain(siren.triggers.iter().map(|t| &t.terminal));
        facts.push(with_terminals(unit, "External sounder wiring", &siren.cite, marks));
    }
    SourceGroup { card: unit.name(), sources: rows(&unit.sources), facts }
}

fn board(job: &Job) -> SourceGroup {
    let board = job.board;
    let unit = &board.unit;
    let mut facts = unit_facts(unit);
    if let Some(feed) = &board.feed {
        facts.push(with_terminals(unit, "Feed", &feed.cite, feed.terminals.iter().flat_map(|(p, n)| [p, n])));
    }
    for supply in &board.supplies {
        facts.push(with_terminals(
            unit,
            &format!("Supply {}", supply.supply),
            &supply.cite,
            [&supply.positive, &supply.negative],
        ));
    }
    for input in &board.inputs {
        facts.push(with_terminals(unit, &format!("Input {}", input.input), &input.cite, [&input.out, &input.back]));
    }
    for output in &board.outputs {
        facts.push(with_terminals(unit, &format!("Output {}", output.output), &output.cite, output_marks(output)));
    }
    facts.push(fact("End-of-line resistors", &board.eol.cite));
    facts.push(fact("Bands of the inputs", &board.bands.cite));
    SourceGroup { card: unit.name(), sources: rows(&unit.sources), facts }
}

/// The terminals of an output.
fn output_marks(output: &Output) -> Vec<&String> {
    match &output.kind {
        OutputKind::OpenCollector { terminal } => vec![terminal],
        OutputKind::Relay { common, normally_open, normally_closed } => {
            [Some(common), normally_open.as_ref(), normally_closed.as_ref()].into_iter().flatten().collect()
        }
    }
}
