//! What else hangs on the panel.

use super::{Cell, Part, Stage, Wanted};
use crate::model::Terminal;
use crate::pack::hangs::hanging;

/// What is asked for on every site.
const ASKED: [&str; 4] = ["Telephone line or communicator", "Smoke detectors", "Door locks or gates", "Panic buttons"];

/// Rows for what nobody asked for.
const ROWS: usize = 3;

const HEADS: [&str; 5] = ["What", "There?", "On which screws or cable", "Draws at rest", "Draws in alarm"];

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let how = vec![
        "Ask before stage 3, look for their wires here. Who must be told before each is dead?".to_string(),
        "Currents from its label, or a meter in its feed. Only what stays on the alarm's power source is a load: a \
         router, a lock. Nothing at all: loads is none."
            .into(),
    ];
    let terminals = wanted.panel.map_or(&[][..], |panel| panel.unit.terminals.as_slice());
    let mut rows: Vec<Vec<Cell>> = ASKED.iter().map(|what| row(Cell::name(*what), Cell::noted(14))).collect();
    rows.extend(terminals.iter().filter(|t| hanging(t).is_some()).map(screw));
    rows.extend((0..ROWS).map(|_| row(Cell::blank("loads.name", 16), Cell::noted(14))));
    Stage::new("What else hangs on the panel", how, vec![Part::new("Asked, and found", &HEADS, rows)])
}

fn row(what: Cell, place: Cell) -> Vec<Cell> {
    vec![
        what,
        Cell::choice("loads", &["none", "yes"]),
        place,
        Cell::blank("loads.standby", 6).unit("mA"),
        Cell::blank("loads.alarm", 6).unit("mA"),
    ]
}

/// A screw on which something may hang.
fn screw(terminal: &Terminal) -> Vec<Cell> {
    let does = terminal.does.as_deref().unwrap_or("what it does is not known");
    row(Cell::name(format!("On {}: {does}", terminal.mark)), Cell::said(&terminal.mark))
}
