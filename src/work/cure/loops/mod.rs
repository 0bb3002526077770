//! A loop that the board would report wrongly: the run, the contacts, the resistor or the tolerance that would do,
//! or what is wrong with the board's bands.

mod text;
mod ways;

use super::super::{LoopFigure, StateFigure};
use crate::land::Plan;
use crate::model::{Band, Job, LoopState};

/// What would make a loop read as it should. `None` in a field: that way does not do.
#[derive(Debug, Clone, PartialEq)]
pub struct LoopCure {
    /// What is wrong in each state that reads wrongly.
    pub wrong: Vec<Wrong>,
    /// The longest run of one of its cables that does: the cable, as an index into the job's, and metres.
    pub longest: Option<(usize, f64)>,
    /// The contact that adds most, with the most that it may add.
    pub contact: Option<ContactLimit>,
    /// Other resistors than the board's that do, one of the two changed.
    pub resistor: Option<Resistor>,
    /// The widest tolerance of the resistors that does, as a fraction.
    pub tolerance: Option<f64>,
    /// Whether the input takes another wiring.
    pub other_wiring: bool,
}

/// Why a state reads wrongly.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// An open or shorted loop: the state; no wiring changes what it reads.
    Fixed(LoopState),
    /// The board's card has no band for this state.
    NoBand(LoopState),
    /// So many ohms too many for the band (it ends at the second).
    Above(LoopState, f64, f64),
    /// So many ohms too few for the band (it begins at the second).
    Below(LoopState, f64, f64),
}

/// A resistor that does in place of the board's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resistor {
    /// Which one: the one across the alarm contact, else the one at the end.
    pub alarm: bool,
    /// The board's.
    pub now: f64,
    /// The nearest of the E24 values with which every state reads as it should.
    pub instead: f64,
}

/// How much a contact may add to its loop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContactLimit {
    /// The item, as an index into the job's.
    pub item: usize,
    /// The ohms in series with the contact.
    pub now: f64,
    /// The most with which every state reads as it should.
    pub at_most: f64,
}

/// What would cure a loop; `None` when every state reads as it should or is not known.
#[must_use]
pub fn loops(job: &Job<'_>, plan: &Plan, figure: &LoopFigure) -> Option<LoopCure> {
    let bad: Vec<&StateFigure> = figure.states.iter().filter(|s| s.ok == Some(false)).collect();
    let planned = plan.loops.iter().find(|l| l.input == figure.input && l.tamper == figure.tamper)?;
    if bad.is_empty() {
        return None;
    }
    let bands = job.board.bands.of(figure.wiring)?;
    Some(LoopCure {
        wrong: bad.iter().filter_map(|state| wrong(bands, state)).collect(),
        longest: ways::longest(job, plan, planned),
        contact: ways::contact(job, plan, planned),
        resistor: ways::resistor(job, plan, planned),
        tolerance: ways::tolerance(job, plan, planned),
        other_wiring: ways::other_wiring(job, planned),
    })
}

/// Why a state reads wrongly.
fn wrong(bands: &[Band], state: &StateFigure) -> Option<Wrong> {
    if state.open || state.state == LoopState::Short {
        return Some(Wrong::Fixed(state.state));
    }
    let right: Vec<&Band> = bands.iter().filter(|band| band.state == state.state).collect();
    let (low, high) = (state.low?, state.high?);
    let misses = right.iter().map(|band| miss(band, state.state, low, high));
    let nearest = misses.min_by(|a, b| a.0.total_cmp(&b.0));
    Some(nearest.map_or(Wrong::NoBand(state.state), |(_, wrong)| wrong))
}

/// By how many ohms a range misses a band, at the end where it misses more.
fn miss(band: &Band, state: LoopState, low: f64, high: f64) -> (f64, Wrong) {
    let above = band.to.map_or((f64::NEG_INFINITY, 0.0), |to| (high - to.get(), to.get()));
    let below = band.from.map_or((f64::NEG_INFINITY, 0.0), |from| (from.get() - low, from.get()));
    if above.0 >= below.0 {
        (above.0, Wrong::Above(state, above.0.max(0.0), above.1))
    } else {
        (below.0, Wrong::Below(state, below.0, below.1))
    }
}
