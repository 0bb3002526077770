//! Live volts: every screw of the panel in board order, and the sounder's screws while it sounds.

use super::sounder::drives;
use super::{Cell, Part, Stage, Wanted};
use crate::model::{Group, Panel, Terminal};
use crate::pack::known::known_terminal;
use crate::pack::panel::{does, figures};
use crate::pack::safety::mains_marks;

const HEADS: [&str; 4] = ["Mark", "What it does", "By the card", "Volts read"];

/// Rows for screws when no card names them.
const ROWS: usize = 30;

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let unit = wanted.panel.map(|panel| &panel.unit);
    let marks = unit.and_then(mains_marks).map(|marks| format!(": {marks}")).unwrap_or_default();
    let negative = wanted
        .panel
        .and_then(negative)
        .map_or_else(|| "the common negative, found first on the battery's negative lead".to_string(), str::to_string);
    let how = vec![
        "Old panel in its service state first. Then open the lid.".to_string(),
        format!("Lid open, the mains screws are LIVE{marks}. One hand, insulated probes."),
        "Photograph the whole panel, every terminal strip, every fuse, every link, before anything is moved.".into(),
        format!(
            "Meter on DC volts, proved on the battery first. Black probe on {negative}, red probe on each screw; \
             everything connected, nothing in alarm. A minus sign counts."
        ),
    ];
    let screws = match wanted.panel {
        Some(panel) => known_screws(panel),
        None => blank_screws(),
    };
    let mut parts = vec![Part::new("Every screw, in board order", &HEADS, screws), drives(wanted.panel)];
    parts.extend(wanted.panel.and_then(links));
    Stage::new("Live volts", how, parts)
}

/// The negative that volts are read against.
fn negative(panel: &Panel) -> Option<&str> {
    panel.unit.power.get().and_then(|power| power.out.as_ref()).map(|(_, negative)| negative.as_str())
}

fn known_screws(panel: &Panel) -> Vec<Vec<Cell>> {
    panel.unit.terminals.iter().map(|terminal| screw(panel, terminal)).collect()
}

fn screw(panel: &Panel, terminal: &Terminal) -> Vec<Cell> {
    let known = known_terminal(terminal);
    let says = if known.confirm { format!("{} (confirm: {})", does(terminal), known.text) } else { does(terminal) };
    vec![Cell::name(&terminal.mark), Cell::said(says), Cell::said(figures(terminal)), volts(panel, terminal)]
}

/// Whether volts are read at a screw: not at the mains', and not where the other probe is.
pub(super) fn is_read(panel: &Panel, terminal: &Terminal) -> bool {
    !is_mains(terminal) && negative(panel) != Some(terminal.mark.as_str())
}

fn is_mains(terminal: &Terminal) -> bool {
    matches!(terminal.group, Some(Group::Mains | Group::Earth))
}

/// Room for the volts, but where they must not be read here.
fn volts(panel: &Panel, terminal: &Terminal) -> Cell {
    if !is_read(panel, terminal) {
        return Cell::said(if is_mains(terminal) { "LIVE, not here" } else { "black probe" });
    }
    Cell::blank("readings", 12).unit("V")
}

fn blank_screws() -> Vec<Vec<Cell>> {
    let row = || vec![Cell::noted(10), Cell::noted(40), Cell::said("no card"), Cell::blank("readings", 12).unit("V")];
    (0..ROWS).map(|_| row()).collect()
}

/// Jumpers and switches, as found.
fn links(panel: &Panel) -> Option<Part> {
    let row = |link: &crate::model::Link| {
        vec![Cell::name(&link.mark), Cell::said(&link.does), Cell::noted(0).after("☐ fitted  ☐ not fitted")]
    };
    let rows: Vec<Vec<Cell>> = panel.unit.links.iter().map(row).collect();
    (!rows.is_empty()).then(|| Part::new("Links and switches", &["Mark", "What it does", "As found"], rows))
}
