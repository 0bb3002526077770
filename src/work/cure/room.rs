//! Where the current that a supply of the board can't carry could go: the board's other supplies, with the room each has.

use super::super::Loading;
use super::{LoadCure, show};
use crate::formula::sum::SPARE;
use crate::model::{Feeds, Job, Supply};

/// Another supply of the board and the room that it has, on itself and on its fuse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// The supply, as an index into the board's.
    pub supply: usize,
    /// Amperes at rest.
    pub standby: f64,
    /// Amperes in alarm.
    pub alarm: f64,
}

/// The board's other supplies that may feed the same kind of item and have room for all that must go, in card order.
/// A supply whose limit or load is not known is none of them.
#[must_use]
pub fn rooms(job: &Job<'_>, rows: &[Loading], row: &Loading, cure: &LoadCure) -> Vec<Room> {
    let supplies = &job.board.supplies;
    let Some(full) = supplies.iter().find(|supply| row_of(supply) == row.what) else { return Vec::new() };
    let takes = |room: &Room| {
        cure.standby.unwrap_or(0.0) <= room.standby + SPARE && cure.alarm.unwrap_or(0.0) <= room.alarm + SPARE
    };
    let others = supplies.iter().enumerate().filter(|(_, supply)| row_of(supply) != row.what);
    others
        .filter(|(_, supply)| supply.feeds == Feeds::Any || supply.feeds == full.feeds)
        .filter_map(|(index, supply)| room(rows, index, supply))
        .filter(takes)
        .collect()
}

/// The name of a supply's row.
fn row_of(supply: &Supply) -> String {
    format!("supply:{}", supply.supply)
}

/// What a supply and its fuse can still carry.
fn room(rows: &[Loading], supply: usize, card: &Supply) -> Option<Room> {
    let fuse = card.fuse.as_ref().map(|mark| format!("fuse:board:{mark}"));
    let whats = [Some(row_of(card)), fuse];
    let mut room = Room { supply, standby: f64::INFINITY, alarm: f64::INFINITY };
    for what in whats.into_iter().flatten() {
        let row = rows.iter().find(|row| row.what == what)?;
        room.standby = room.standby.min(row.limit? - row.standby.value?);
        room.alarm = room.alarm.min(row.alarm_limit.or(row.limit)? - row.alarm.value?);
    }
    Some(room)
}

/// The rooms in words, after `must go to another supply`.
pub(super) fn text(job: &Job<'_>, rooms: &[Room]) -> String {
    let each = |room: &Room| {
        let name = job.board.supplies.get(room.supply).map_or("", |supply| supply.supply.as_str());
        format!(
            "{name} has room for {} at rest and {} in alarm",
            show::amps_down(room.standby),
            show::amps_down(room.alarm)
        )
    };
    match (rooms, job.board.supplies.len()) {
        ([], 0 | 1) => " than the board's only one".to_string(),
        ([], _) => ", and none of the board's has that room".to_string(),
        (rooms, _) => format!(": {}", show::either(&rooms.iter().map(each).collect::<Vec<_>>())),
    }
}
