//! Blanks of the power source and the board on which no verdict of the figures rests.

use super::super::case::Case;
use super::super::types::Level;
use super::blank::{Blank, CARD};
use super::volts::source_volts;
use crate::model::Fact;

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    feed(case).into_iter().chain(fits(case)).collect()
}

/// Whether the board may be fed what the source gives can't be said.
fn feed(case: &Case<'_>) -> Vec<Blank> {
    if case.board_feeds() {
        return Vec::new();
    }
    let board = &case.job.board;
    let window = board.feed.as_ref().and_then(|f| f.volts);
    let window = window.is_none().then(|| Blank::warning(&board.unit.id, "what volts it may be fed", CARD));
    let volts = source_volts(case).map(|blank| Blank { level: Level::Warning, ..blank });
    window.into_iter().chain(volts).collect()
}

/// Whether the source takes the battery can't be said.
fn fits(case: &Case<'_>) -> Option<Blank> {
    case.figures.battery.fitted_ah?;
    let source = case.job.source.as_ref()?;
    let unknown = match &source.block?.battery {
        Fact::NotKnown => true,
        Fact::Absent => false,
        Fact::Is(battery) => battery.fits.is_empty(),
    };
    unknown.then(|| Blank::warning(&source.unit.id, "which batteries it takes", CARD))
}
