//! What only a new board has: what each of its terminals is used for.

use super::unit;
use crate::model::{Board, Card, Library, OutputKind};
use crate::search::entry::Entry;

/// Every fact of a board.
pub(super) fn entries(library: &Library, board: &Board) -> Vec<Entry> {
    unit::with_roles(library, Card::Board(board), &board.unit, &|mark| roles(board, mark))
}

fn roles(board: &Board, mark: &str) -> Vec<String> {
    let mut roles = Vec::new();
    if let Some(feed) =
        board.feed.as_ref().filter(|f| f.terminals.as_ref().is_some_and(|(a, b)| a == mark || b == mark))
    {
        let volts = feed.volts.map_or_else(|| "volts not known".to_string(), |v| v.to_string());
        roles.push(format!("The board is fed here, {volts}"));
    }
    for supply in board.supplies.iter().filter(|s| s.positive == mark || s.negative == mark) {
        let limit = supply.limit.map_or_else(|| "limit not known".to_string(), |a| format!("limit {a}"));
        roles.push(format!("Supply {}: {limit}", supply.supply));
    }
    for input in board.inputs.iter().filter(|i| i.out == mark || i.back == mark) {
        let accepts: Vec<&str> = input.accepts.iter().map(|w| w.word()).collect();
        roles.push(format!("Input {}: {} and {}, accepts {}", input.input, input.out, input.back, accepts.join(", ")));
    }
    for output in &board.outputs {
        if let Some(part) = output_part(&output.kind, mark) {
            let limit = output.limit.map_or_else(|| "limit not known".to_string(), |a| format!("limit {a}"));
            roles.push(format!("Output {}: {part}, {limit}", output.output));
        }
    }
    roles
}

fn output_part(kind: &OutputKind, mark: &str) -> Option<&'static str> {
    match kind {
        OutputKind::OpenCollector { terminal } => (terminal == mark).then_some("open collector"),
        OutputKind::Relay { common, .. } if common == mark => Some("relay common"),
        OutputKind::Relay { normally_open, .. } if normally_open.as_deref() == Some(mark) => {
            Some("relay, normally open")
        }
        OutputKind::Relay { normally_closed, .. } if normally_closed.as_deref() == Some(mark) => {
            Some("relay, normally closed")
        }
        OutputKind::Relay { .. } => None,
    }
}
