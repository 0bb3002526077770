//! A loop that the board would report wrongly: the run, the contacts, the resistor or the tolerance that would do,
//! or what is wrong with the board's bands.

use super::super::loops::states;
use super::super::{LoopFigure, StateFigure};
use super::show;
use crate::formula::cure::{down, e24_near, largest};
use crate::land::{CableLength, Plan, PlannedLoop};
use crate::model::{Band, Board, DoubleEol, Eol, Job, LoopState, Wiring};
use crate::units::{Ohms, Percent};

/// A band's end does not belong to it: what is shown stays so far under it.
const EDGE: f64 = 0.001;

/// What would make a loop read as it should. `None` in a field: that way does not do.
#[derive(Debug, Clone, PartialEq)]
pub struct LoopCure {
    /// What is wrong in each state that reads wrongly.
    pub wrong: Vec<Wrong>,
    /// The longest run of one of its cables that does: the cable, as an index into the job's, and metres.
    pub longest: Option<(usize, f64)>,
    /// Other resistors than the board's that do, one of the two changed.
    pub resistor: Option<Resistor>,
    /// The widest tolerance of the resistors that does, as a fraction.
    pub tolerance: Option<f64>,
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
        longest: longest(job, plan, planned),
        resistor: resistor(job, plan, planned),
        tolerance: tolerance(job, plan, planned),
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

/// Whether every state of a loop reads as it should.
fn passes(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> bool {
    states(job, plan, planned).iter().all(|state| state.ok == Some(true))
}

/// The longest run of the loop's longest cable with which it reads as it should.
fn longest(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<(usize, f64)> {
    let metres = |cable: usize| plan.lengths.get(cable).copied().flatten().map(|length| length.longest);
    let cables = planned.items.iter().filter_map(|item| plan.item(*item)).map(|served| served.cable);
    let (cable, now) = cables
        .filter_map(|cable| Some((cable, metres(cable)?)))
        .reduce(|most, next| if next.1 > most.1 { next } else { most })?;
    let shortened = |to: f64| {
        let mut other = plan.clone();
        if let Some(Some(length)) = other.lengths.get_mut(cable) {
            *length = CableLength { shortest: length.shortest.min(to), longest: to, ..*length };
        }
        passes(job, &other, planned)
    };
    largest(0.0, now, shortened).map(|metres| (cable, metres))
}

/// Whether a loop reads as it should with other resistors.
fn passes_with(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop, eol: Eol) -> bool {
    let board = Board { eol, ..job.board.clone() };
    passes(&Job { board: &board, ..job.clone() }, plan, planned)
}

/// The nearest E24 value that does in place of one of the board's resistors.
fn resistor(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<Resistor> {
    let eol = &job.board.eol;
    match (planned.tamper, planned.wiring) {
        (false, Wiring::SingleEol) => instead(eol.single?, false, |ohms| {
            passes_with(job, plan, planned, Eol { single: Some(ohms), ..eol.clone() })
        }),
        (false, Wiring::DoubleEol) => {
            let double = eol.double?;
            let with = |double: DoubleEol| passes_with(job, plan, planned, Eol { double: Some(double), ..eol.clone() });
            let end = instead(double.end, false, |end| with(DoubleEol { end, ..double }));
            end.or_else(|| instead(double.alarm, true, |alarm| with(DoubleEol { alarm, ..double })))
        }
        _ => None,
    }
}

/// The nearest E24 value that does in place of a resistor.
fn instead(now: Ohms, alarm: bool, does: impl Fn(Ohms) -> bool) -> Option<Resistor> {
    let found = e24_near(now.get()).into_iter().filter_map(Ohms::new).find(|ohms| does(*ohms))?;
    Some(Resistor { alarm, now: now.get(), instead: found.get() })
}

/// The widest tolerance that does, when the board's own is too wide.
fn tolerance(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<f64> {
    let eol = &job.board.eol;
    if planned.tamper || planned.wiring == Wiring::ClosedLoop {
        return None;
    }
    let with =
        |tolerance: f64| passes_with(job, plan, planned, Eol { tolerance: Percent::new(tolerance), ..eol.clone() });
    largest(0.0, eol.tolerance?.get(), with)
}

impl Wrong {
    /// What is wrong, in words.
    fn text(&self) -> String {
        match self {
            Self::Fixed(state) => {
                format!("the board's bands misread this loop's {} state, whatever is wired", state.word())
            }
            Self::NoBand(state) => format!("the board's card has no band for {}", state.word()),
            Self::Above(state, ohms, end) => {
                format!(
                    "{} must fall by more than {} to be under {}",
                    state.word(),
                    show::ohms(*ohms),
                    show::ohms(*end)
                )
            }
            Self::Below(state, ohms, from) => {
                format!("{} must rise by {} to reach {}", state.word(), show::ohms_up(*ohms), show::ohms(*from))
            }
        }
    }
}

impl LoopCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self, job: &Job<'_>) -> String {
        let wrong: Vec<String> = self.wrong.iter().map(Wrong::text).collect();
        let ways = self.ways(job);
        let wrong = capital(&wrong.join("; "));
        match (ways.is_empty(), self.wrong.iter().any(|w| matches!(w, Wrong::Fixed(_) | Wrong::NoBand(_)))) {
            (true, true) => format!("{wrong}: put the card's bands right, or use another wiring."),
            (true, false) => format!("{wrong}: no run or resistor does; use another wiring."),
            (false, _) => format!("{wrong}. Would do: {}.", show::either(&ways)),
        }
    }

    /// Each way that does.
    fn ways(&self, job: &Job<'_>) -> Vec<String> {
        let run = self.longest.filter(|(_, metres)| *metres >= 0.1).map(|(cable, metres)| {
            let name = job.cables.get(cable).map_or("the cable", |c| c.survey.cable.as_str());
            format!("a run of at most {} for {name}", show::metres_down(metres - EDGE))
        });
        let tolerance =
            self.tolerance.filter(|t| *t >= 0.001).and_then(|t| Percent::new(down(t - EDGE * 0.001, 0.001)));
        let tolerance = tolerance.map(|t| format!("the board's resistors at {t} or closer"));
        let resistor = self.resistor.map(|r| {
            let place = if r.alarm { "across the alarm contact" } else { "at the end" };
            format!(
                "{} in place of the {} {place}, if the board's maker allows it",
                show::ohms(r.instead),
                show::ohms(r.now)
            )
        });
        [run, tolerance, resistor].into_iter().flatten().collect()
    }
}

/// A sentence with a capital.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
