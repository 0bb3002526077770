//! The old panel: every screw, the fuses, how the external sounder is wired, what earlier jobs left.

use super::known::{Known, known_at, known_block, known_terminal, nothing, or_not_known};
use super::names::{core_of, wiring};
use super::notes::{NoteView, on_mark};
use crate::model::{CoreUse, Fact, Fuse, FuseFound, Job, Pair, Panel, Terminal};
use serde::Serialize;

/// The old panel as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PanelView {
    /// Maker and model.
    pub name: String,
    /// Other names, with commas; empty when there are none.
    pub also: String,
    /// What is printed on the circuit board; empty when not known.
    pub markings: String,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Every screw, in board order.
    pub terminals: Vec<TerminalRow>,
    /// Every fuse.
    pub fuses: Vec<FuseRow>,
    /// How the external sounder is wired, line by line.
    pub siren: Vec<Line>,
    /// Its zones and tamper pairs.
    pub pairs: Vec<PairRow>,
    /// Jumpers and switches.
    pub links: Vec<Line>,
    /// All notes of earlier jobs, oldest first.
    pub notes: Vec<NoteView>,
}

/// One screw.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TerminalRow {
    /// What is printed beside it.
    pub mark: String,
    /// What it does; `not known`.
    pub does: String,
    /// What it should measure, its limit and its fuse.
    pub figures: String,
    /// What the survey read there; `not read`.
    pub read: String,
    /// The cores found on it, with commas; `none found`.
    pub cores: String,
    /// How this is known.
    pub known: Known,
    /// What earlier jobs noted about it.
    pub notes: Vec<String>,
}

/// One fuse.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FuseRow {
    /// What is printed beside it.
    pub mark: String,
    /// Rating, speed and size.
    pub right: String,
    /// What it guards.
    pub guards: String,
    /// Where it is.
    pub place: String,
    /// As found.
    pub found: String,
    /// How this is known.
    pub known: Known,
    /// What earlier jobs noted about it.
    pub notes: Vec<String>,
}

/// A named line with its source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// What it is.
    pub what: String,
    /// What is known of it.
    pub text: String,
    /// How it is known.
    pub known: Known,
}

/// A zone or a tamper pair.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PairRow {
    /// Which.
    pub what: String,
    /// Its two screws.
    pub screws: String,
    /// How it is watched.
    pub wiring: &'static str,
    /// How this is known.
    pub known: Known,
}

/// The old panel of a job.
#[must_use]
pub fn panel(job: &Job) -> PanelView {
    let unit = &job.panel.unit;
    PanelView {
        name: unit.name(),
        also: unit.also.join(", "),
        markings: unit.markings.join(", "),
        cautions: unit.cautions.clone(),
        terminals: unit.terminals.iter().map(|t| terminal(job, t)).collect(),
        fuses: unit.fuses.iter().map(|f| fuse(job, f)).collect(),
        siren: super::siren::siren(job.panel),
        pairs: pairs(job.panel),
        links: unit.links.iter().map(|l| link(job, l)).collect(),
        notes: NoteView::of_card(job, &unit.id),
    }
}

/// A link with what earlier jobs noted about it.
fn link(job: &Job, link: &crate::model::Link) -> Line {
    let mut text = link.does.clone();
    for note in on_mark(job, &job.panel.unit.id, &link.mark) {
        text.push_str(". Note: ");
        text.push_str(&note);
    }
    Line { what: link.mark.clone(), text, known: known_at(&link.cite, link.evidence) }
}

fn terminal(job: &Job, terminal: &Terminal) -> TerminalRow {
    let cores = cores_on(job, &terminal.mark);
    let read = job.survey.readings.iter().find(|(mark, _)| *mark == terminal.mark);
    TerminalRow {
        mark: terminal.mark.clone(),
        does: does(terminal),
        figures: figures(terminal),
        read: read.map_or_else(|| "not read".into(), |(_, volts)| volts.to_string()),
        cores: if cores.is_empty() { "none found".into() } else { cores.join(", ") },
        known: known_terminal(terminal),
        notes: on_mark(job, &job.panel.unit.id, &terminal.mark),
    }
}

/// What a terminal does, with the card's further words.
pub(super) fn does(terminal: &Terminal) -> String {
    let does = or_not_known(terminal.does.as_ref());
    match &terminal.notes {
        Some(notes) => format!("{does}. {notes}"),
        None => does,
    }
}

/// Volts, limit and fuse of a terminal, as far as the card gives them.
pub(super) fn figures(terminal: &Terminal) -> String {
    let parts = [
        terminal.volts.as_ref().map(ToString::to_string),
        terminal.limit.as_ref().map(|limit| format!("up to {limit}")),
        terminal.fuse.as_ref().map(|fuse| format!("fuse {fuse}")),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The cores that the survey found on a mark.
#[must_use]
pub fn cores_on(job: &Job, mark: &str) -> Vec<String> {
    let cables = job.cables.iter().enumerate();
    let cores = cables.flat_map(|(c, cable)| cable.cores.iter().map(move |core| (c, core)));
    cores
        .filter(|(_, core)| matches!(&core.on, CoreUse::Mark(m) if m == mark))
        .map(|(c, core)| core_of(job, c, core.colour))
        .collect()
}

fn fuse(job: &Job, fuse: &Fuse) -> FuseRow {
    let found = job.survey.fuses.iter().find(|(mark, _)| *mark == fuse.mark);
    FuseRow {
        mark: fuse.mark.clone(),
        right: right_fuse(fuse),
        guards: or_not_known(fuse.guards.as_ref()),
        place: or_not_known(fuse.place.as_ref()),
        found: found
            .map_or_else(|| "not looked at".into(), |(_, found)| with_settled(job, &fuse.mark, as_found(found))),
        known: known_at(&fuse.cite, fuse.evidence),
        notes: on_mark(job, &job.panel.unit.id, &fuse.mark),
    }
}

/// Rating, speed and size of a fuse; what is not known says so.
#[must_use]
pub fn right_fuse(fuse: &Fuse) -> String {
    let rating = fuse.rating.as_ref().map_or_else(|| "rating not known".into(), ToString::to_string);
    let speed = fuse.speed.map_or(", speed not known".into(), |speed| format!(" {}", speed.word()));
    let size = fuse.size.as_deref().unwrap_or("size not known");
    format!("{rating}{speed}, {size}")
}

/// What was found, and what was done about it since.
fn with_settled(job: &Job, mark: &str, found: String) -> String {
    match super::parts::settled(job, mark) {
        Some(says) => format!("{found}; settled: {says}"),
        None => found,
    }
}

/// A fuse as found.
fn as_found(found: &FuseFound) -> String {
    match found {
        FuseFound::Fitted(rating, Some(speed)) => format!("{rating} {}", speed.word()),
        FuseFound::Fitted(rating, None) => format!("{rating}, speed not read"),
        FuseFound::Blown => "blown".into(),
        FuseFound::Bridged => "BRIDGED".into(),
        FuseFound::Missing => "missing".into(),
        FuseFound::Unknown => "could not be read".into(),
    }
}

/// Zones, zone tampers and the panel's own tamper.
#[must_use]
pub(super) fn pairs(panel: &Panel) -> Vec<PairRow> {
    let unit = &panel.unit;
    let row = |what: String, pair: &Pair| PairRow {
        what,
        screws: format!("{} and {}", pair.out, pair.back),
        wiring: wiring(pair.wiring),
        known: known_block(unit, &pair.cite, [&pair.out, &pair.back]),
    };
    let mut rows = Vec::new();
    for zone in &panel.zones {
        rows.push(row(format!("Zone {}", zone.zone), &zone.pair));
        rows.extend(zone.tamper.as_ref().map(|pair| row(format!("Zone {} tamper", zone.zone), pair)));
    }
    match &panel.tamper {
        Fact::Is(pair) => rows.push(row("Tamper".into(), pair)),
        Fact::NotKnown => rows.push(none_row("not known")),
        Fact::Absent => rows.push(none_row("none")),
    }
    rows
}

fn none_row(word: &str) -> PairRow {
    PairRow { what: "Tamper".into(), screws: word.into(), wiring: "—", known: nothing() }
}
