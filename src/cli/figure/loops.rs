//! `wirelore figure loop`: what a loop reads in each state.

use super::args::Loop;
use super::nothing_of;
use super::sheet::{Sheet, holds, number, text, way};
use super::wire::wire;
use crate::cli::report::Report;
use crate::cli::table::table;
use crate::model::{Library, LoopState};
use crate::units::{Ohms, Window};
use crate::work::StateFigure;
use crate::work::alone::{LoopQuestion, OFF, Resistors, loops};
use serde_json::{Value, json};

/// The figure, with what is behind it.
///
/// # Errors
/// When the library has no such board or cable card.
pub(super) fn sheet(library: &Library, asked: &Loop) -> Result<Sheet, Report> {
    let boards = || library.boards.keys().map(String::as_str);
    let board = library.boards.get(&asked.board).ok_or_else(|| nothing_of("board", &asked.board, boards()))?;
    let shortest = asked.shortest.unwrap_or(asked.length);
    if shortest > asked.length {
        let message = format!("error: --shortest {shortest} is longer than --length {}", asked.length);
        return Err(Report::wrong_usage(message));
    }
    let states = loops(&LoopQuestion {
        wiring: asked.wiring.wiring(),
        board: board.clone(),
        resistors: Resistors { end: asked.end, alarm: asked.alarm, tolerance: asked.tolerance },
        wire: wire(library, &asked.wire, asked.temperature)?,
        length: Window { low: shortest, high: asked.length },
        series: asked.series,
        tamper_series: asked.tamper_series,
    });
    Ok(written(asked, &states))
}

fn written(asked: &Loop, states: &[StateFigure]) -> Sheet {
    let mut sheet = Sheet::new("loop", &[OFF]);
    let rows: Vec<Vec<String>> = states.iter().map(row).collect();
    let heading = ["state", "ohms", "between", "board reads", "as it should"];
    sheet.answer = table(&heading, &rows);
    sheet.set("board", asked.board.clone());
    sheet.set("wiring", asked.wiring.wiring().word());
    sheet.set("states", states.iter().map(as_json).collect::<Vec<Value>>());
    for state in states.iter().filter(|state| !state.ohms.given.is_empty()) {
        sheet.shown(text(state.ohms.value, Ohms::new), state.ohms.clone());
    }
    sheet
}

/// A state in the table.
fn row(state: &StateFigure) -> Vec<String> {
    let (low, high) = (text(state.low, Ohms::new), text(state.high, Ohms::new));
    let (ohms, between) = match state.open {
        true => ("open".to_string(), "open".to_string()),
        false if low == high => (text(state.ohms.value, Ohms::new), low),
        false => (text(state.ohms.value, Ohms::new), format!("{low} to {high}")),
    };
    let known = state.open || state.ohms.value.is_some();
    let reads = state.reads.map_or(if known { "undefined" } else { "not known" }, LoopState::word);
    vec![state.state.word().to_string(), ohms, between, reads.to_string(), holds(state.ok).to_string()]
}

/// A state in the shape of pack.json.
fn as_json(state: &StateFigure) -> Value {
    json!({
        "state": state.state.word(),
        "ohms": number(state.ohms.value),
        "low_ohms": number(state.low),
        "high_ohms": number(state.high),
        "reads": state.reads.map(LoopState::word),
        "ok": state.ok,
        "open": state.open,
        "why": { "ohms": way(&state.ohms) },
    })
}
