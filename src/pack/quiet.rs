//! With the old panel kept on as the power supply: what keeps it quiet with its loops lifted.

use super::known::{Known, known, nothing};
use super::notes::on_mark;
use super::panel::cores_on;
use crate::model::{Fact, Group, Job, Pair, Power, ResistorsAt, Returns, Wiring};
use crate::units::Ohms;
use serde::Serialize;

/// What keeps the old panel quiet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct QuietView {
    /// How it stays silent, in the card's words; `NOT KNOWN`.
    pub how: String,
    /// How that is known.
    pub known: Known,
    /// The links and resistors to fit.
    pub links: Vec<QuietLink>,
    /// What earlier jobs noted about its links and switches.
    pub notes: Vec<String>,
    /// The screws that stay empty.
    pub empty: Vec<String>,
}

/// A link or a resistor on the old panel.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct QuietLink {
    /// The loop that it closes.
    pub what: String,
    /// What to fit.
    pub fit: String,
    /// From this mark.
    pub from: String,
    /// To this mark; empty when not known.
    pub to: String,
    /// The part that this asks for; `None`: what is there will do, or its value is not known.
    pub part: Option<String>,
    /// What closes the loop.
    #[serde(skip)]
    pub closer: Closer,
}

/// What closes a loop of the old panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Closer {
    /// A wire.
    Link,
    /// A resistor; `None`: its value is not known.
    Resistor(Option<Ohms>),
    /// Nobody knows.
    NotKnown,
}

/// What keeps the old panel quiet; `None` when it does not stay on.
#[must_use]
pub fn quiet(job: &Job) -> Option<QuietView> {
    job.source.as_ref().filter(|s| *s.power == Power::Panel)?;
    let block = job.panel.unit.power.get();
    let how = block.and_then(|b| b.quiet.clone());
    Some(QuietView {
        how: how.unwrap_or_else(|| {
            "NOT KNOWN how this panel stays silent with its loops lifted: try it before leaving it on.".into()
        }),
        known: match block {
            Some(block) if block.quiet.is_some() => known(&block.cite),
            _ => nothing(),
        },
        notes: link_notes(job),
        links: links(job),
        empty: empty(job),
    })
}

/// The notes about the panel's links and switches: they say what keeps it silent in practice.
fn link_notes(job: &Job) -> Vec<String> {
    let unit = &job.panel.unit;
    let notes = |mark: &str| -> Vec<String> {
        on_mark(job, &unit.id, mark).into_iter().map(|note| format!("{mark}: {note}")).collect()
    };
    unit.links.iter().flat_map(|link| notes(&link.mark)).collect()
}

fn links(job: &Job) -> Vec<QuietLink> {
    let mut links = Vec::new();
    for (at, zone) in job.panel.zones.iter().enumerate() {
        links.push(close(job, format!("Zone {}", zone.zone), &zone.pair, Some(at)));
        if let Some(pair) = &zone.tamper {
            links.push(close(job, format!("Zone {} tamper", zone.zone), pair, None));
        }
    }
    if let Some(pair) = job.panel.tamper.get() {
        links.push(close(job, "Tamper".into(), pair, None));
    }
    links.extend(siren_tamper(job));
    links
}

/// What closes a pair: a link for a closed loop, its old resistor's value for an end-of-line one.
fn close(job: &Job, what: String, pair: &Pair, zone: Option<usize>) -> QuietLink {
    let unused = cores_on(job, &pair.out).is_empty() && cores_on(job, &pair.back).is_empty();
    let old = old_resistor(job, zone);
    let (fit, part, closer) = match (pair.wiring, unused) {
        (Some(Wiring::ClosedLoop), true) => {
            ("link, if none is there: no surveyed core is on it".into(), None, Closer::Link)
        }
        (Some(Wiring::ClosedLoop), false) => ("link".into(), Some("link".into()), Closer::Link),
        (Some(Wiring::SingleEol | Wiring::DoubleEol), true) => {
            ("leave the resistor that closes it: no surveyed core is on it".into(), None, Closer::Resistor(None))
        }
        (Some(Wiring::SingleEol | Wiring::DoubleEol), false) => old,
        (None, _) => (
            "NOT KNOWN how it is watched: measure the loop before lifting it, and close it with that".into(),
            None,
            Closer::NotKnown,
        ),
    };
    QuietLink { what, fit, from: pair.out.clone(), to: pair.back.clone(), part, closer }
}

/// What closes an end-of-line zone, as the survey found it, and the part that this asks for.
fn old_resistor(job: &Job, zone: Option<usize>) -> (String, Option<String>, Closer) {
    let item = zone.and_then(|z| job.items.iter().find(|i| job.zone_of(i) == Some(z)));
    let found = item.and_then(|i| Some((i.name(), i.served?.resistors.get()?)));
    let closer = Closer::Resistor(found.and_then(|(_, r)| r.end));
    let (fit, part) = match found.map(|(name, r)| (name, r.at, r.end)) {
        Some((_, ResistorsAt::Panel, Some(end))) => {
            (format!("its old end resistor, {end}, which is at the panel"), None)
        }
        Some((_, ResistorsAt::Panel, None)) => ("its old end resistor, which is at the panel".into(), None),
        Some((name, ResistorsAt::Device, Some(end))) => {
            (format!("a resistor of {end}, like its old one inside {name}"), Some(format!("{end} resistor")))
        }
        Some((_, ResistorsAt::Device, None)) | None => {
            ("a resistor like its old one (value NOT KNOWN: measure the loop before lifting it)".into(), None)
        }
    };
    (fit, part, closer)
}

/// The link that closes the external sounder's tamper.
fn siren_tamper(job: &Job) -> Option<QuietLink> {
    let siren = job.panel.siren.get()?;
    let tamper = match &siren.tamper {
        Fact::Is(tamper) => tamper,
        Fact::Absent => return None,
        Fact::NotKnown => {
            return Some(QuietLink {
                what: "External sounder tamper".into(),
                fit: "NOT KNOWN: see what its core reads before lifting it".into(),
                from: "not known".into(),
                to: String::new(),
                part: None,
                closer: Closer::NotKnown,
            });
        }
    };
    let to = match tamper.returns {
        Some(Returns::Pair) => tamper.with.clone(),
        Some(Returns::Negative) => siren.negative.get().cloned(),
        Some(Returns::Positive) => siren.hold_off.get().cloned(),
        None => None,
    };
    Some(QuietLink {
        what: "External sounder tamper".into(),
        fit: if to.is_some() { "link".into() } else { "NOT KNOWN what it returns to: measure before lifting".into() },
        from: tamper.terminal.clone(),
        closer: if to.is_some() { Closer::Link } else { Closer::NotKnown },
        part: to.is_some().then(|| "link".into()),
        to: to.unwrap_or_default(),
    })
}

/// Trigger, strobe and speaker screws: they stay empty.
fn empty(job: &Job) -> Vec<String> {
    let mut marks: Vec<String> = Vec::new();
    let triggers = job.panel.siren.get().map_or(&[][..], |s| s.triggers.as_slice());
    for trigger in triggers {
        marks.push(trigger.terminal.clone());
    }
    let speakers = job.panel.unit.terminals.iter();
    for terminal in speakers.filter(|t| matches!(t.group, Some(Group::Strobe | Group::Speaker))) {
        if !marks.contains(&terminal.mark) {
            marks.push(terminal.mark.clone());
        }
    }
    marks
}
