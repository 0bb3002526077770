//! `feed-volts`: the power source's volts, on mains or when its battery is nearly flat, are not what the board may
//! be fed. Too few and it restarts in a power cut; too many and it burns.

use super::case::{Case, volts};
use super::types::Finding;
use crate::land::volts::CUTOFF_ASSUMED;
use crate::units::Volts;
use crate::work::cure;

const CODE: &str = "feed-volts";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    if case.board_feeds() {
        return Vec::new();
    }
    let Some(block) = case.job.source.as_ref().and_then(|s| s.block) else { return Vec::new() };
    let Some(window) = case.job.board.feed.as_ref().and_then(|f| f.volts) else { return Vec::new() };
    let cutoff = block.cutoff.map_or(CUTOFF_ASSUMED, Volts::get);
    let moments = [("on mains", block.volts.map(Volts::get)), ("at the battery's end", Some(cutoff))];
    let outside = |v: &f64| *v < window.low.get() || *v > window.high.get();
    let wrong: Vec<String> =
        moments.into_iter().filter_map(|(when, v)| Some(format!("{} {when}", volts(v.filter(outside)?)))).collect();
    if wrong.is_empty() {
        return Vec::new();
    }
    let cure = cure::feed(case.job).map(|cure| format!(" {}", cure.text()));
    let board = &case.job.board.unit;
    let says = format!(
        "{} may be fed {window}; the source gives {}.{}",
        board.name(),
        crate::wording::listed(&wrong),
        cure.unwrap_or_default()
    );
    vec![Finding::blocker(CODE, &board.id, says)]
}
