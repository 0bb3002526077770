//! What one loop reads in each of its states, and what the board makes of it.

use super::super::StateFigure;
use super::super::loops::alarm::resistors;
use super::super::loops::parts::{Corner, given_resistor};
use super::super::loops::state;
use super::{ASSUMED, TYPED, Wire};
use crate::formula::{Given, Worked, loops};
use crate::model::{Board, DoubleEol, LoopState, Wiring};
use crate::units::{Metres, Ohms, Percent, Window};

/// A loop with one device at its far end.
#[derive(Debug, Clone)]
pub struct LoopQuestion {
    /// How it is wired.
    pub wiring: Wiring,
    /// The board that watches it: its bands, and its resistors where none are given.
    pub board: Board,
    /// Resistors other than the board's.
    pub resistors: Resistors,
    /// The cores.
    pub wire: Wire,
    /// How long the run is, one way.
    pub length: Window<Metres>,
    /// Ohms in series with the alarm contact; not given: none.
    pub series: Option<Ohms>,
    /// Ohms in series with the tamper contact; not given: none.
    pub tamper_series: Option<Ohms>,
}

/// Resistors that someone typed; `None`: the board's.
#[derive(Debug, Clone, Copy, Default)]
pub struct Resistors {
    /// At the end of the line.
    pub end: Option<Ohms>,
    /// Across the alarm contact.
    pub alarm: Option<Ohms>,
    /// Their tolerance.
    pub tolerance: Option<Percent>,
}

/// The states of a loop (the formulas of the pack's loop rows).
#[must_use]
pub fn loops(question: &LoopQuestion) -> Vec<StateFigure> {
    let look = Look { board: fitted(question), question };
    match question.wiring {
        Wiring::ClosedLoop => look.closed(),
        Wiring::SingleEol => look.single(),
        Wiring::DoubleEol => look.double(),
    }
}

/// The board with the resistors that are in the loop.
fn fitted(question: &LoopQuestion) -> Board {
    let mut board = question.board.clone();
    let typed = question.resistors;
    let double = board.eol.double;
    let end = typed.end.or(double.map(|d| d.end));
    let alarm = typed.alarm.or(double.map(|d| d.alarm));
    board.eol.double = end.zip(alarm).map(|(end, alarm)| DoubleEol { end, alarm });
    board.eol.single = typed.end.or(board.eol.single);
    board.eol.tolerance = typed.tolerance.or(board.eol.tolerance);
    board
}

/// A question with the board as it is then.
struct Look<'a> {
    board: Board,
    question: &'a LoopQuestion,
}

impl Look<'_> {
    fn closed(&self) -> Vec<StateFigure> {
        let wiring = Wiring::ClosedLoop;
        let at = |corner: Corner| Some(loops::closed(self.cable(corner)?, self.series()));
        let normal = Worked::new("2·r·L + s", self.given(vec![self.given_series()]), at(Corner::Nominal));
        vec![
            state::closed(&self.board, wiring, LoopState::Normal, normal, at),
            state::open(&self.board, wiring, LoopState::Alarm),
        ]
    }

    fn single(&self) -> Vec<StateFigure> {
        let wiring = Wiring::SingleEol;
        let eol = &self.board.eol;
        let at = |corner: Corner| {
            Some(loops::single(corner.resistor(eol.single, eol.tolerance)?, self.cable(corner)?, self.series()))
        };
        let end = self.given_end(eol.single);
        let normal = Worked::new("E + 2·r·L + s", self.given(vec![end, self.given_series()]), at(Corner::Nominal));
        vec![
            state::closed(&self.board, wiring, LoopState::Normal, normal, at),
            state::open(&self.board, wiring, LoopState::Alarm),
            state::short(&self.board, wiring),
        ]
    }

    fn double(&self) -> Vec<StateFigure> {
        let wiring = Wiring::DoubleEol;
        let (sa, st) = (self.series(), self.question.tamper_series.map_or(0.0, Ohms::get));
        let at_rest = |corner: Corner| {
            let (end, alarm) = resistors(&self.board, corner)?;
            Some(loops::double_normal(end, alarm, self.cable(corner)?, sa, st))
        };
        let in_alarm = |corner: Corner| {
            let (end, alarm) = resistors(&self.board, corner)?;
            Some(loops::double_alarm(end, alarm, self.cable(corner)?, st))
        };
        let given = self.given(self.given_double());
        let normal = Worked::new("E + 2·r·L + A·sa/(A + sa) + st", given.clone(), at_rest(Corner::Nominal));
        let alarm = Worked::new("E + A + 2·r·L + st", given, in_alarm(Corner::Nominal));
        vec![
            state::closed(&self.board, wiring, LoopState::Normal, normal, at_rest),
            state::closed(&self.board, wiring, LoopState::Alarm, alarm, in_alarm),
            state::open(&self.board, wiring, LoopState::Tamper),
            state::short(&self.board, wiring),
        ]
    }

    /// The two cores of the run.
    fn cable(&self, corner: Corner) -> Option<f64> {
        let length = if corner == Corner::Low { self.question.length.low } else { self.question.length.high };
        Some(2.0 * self.question.wire.ohms_per_metre()? * length.get())
    }

    fn series(&self) -> f64 {
        self.question.series.map_or(0.0, Ohms::get)
    }

    /// Some numbers, and those of the cable.
    fn given(&self, first: Vec<Given>) -> Vec<Given> {
        let length = self.question.length;
        let text = if length.low == length.high { length.high.to_string() } else { length.to_string() };
        let wire = self.question.wire.given();
        first.into_iter().chain(wire).chain([Given::new("L", Some(text), TYPED)]).collect()
    }

    fn given_series(&self) -> Given {
        contact("s", self.question.series)
    }

    fn given_double(&self) -> Vec<Given> {
        let double = self.board.eol.double;
        vec![
            self.given_end(double.map(|d| d.end)),
            self.given_typed("A", double.map(|d| d.alarm), self.question.resistors.alarm),
            contact("sa", self.question.series),
            contact("st", self.question.tamper_series),
        ]
    }

    fn given_end(&self, ohms: Option<Ohms>) -> Given {
        self.given_typed("E", ohms, self.question.resistors.end)
    }

    /// A resistor with its tolerance, each the board's where nobody typed it.
    fn given_typed(&self, symbol: &str, ohms: Option<Ohms>, typed: Option<Ohms>) -> Given {
        let given = given_resistor(&self.board, symbol, ohms);
        let origin = match (typed.is_some(), self.question.resistors.tolerance.is_some()) {
            (false, false) => given.origin,
            (true, true) => TYPED.to_string(),
            (true, false) => format!("{TYPED}; tolerance: {}", given.origin),
            (false, true) => format!("{}; tolerance {TYPED}", given.origin),
        };
        Given { origin, ..given }
    }
}

/// The number behind a contact.
fn contact(symbol: &str, series: Option<Ohms>) -> Given {
    Given::new(symbol, series.or_else(|| Ohms::new(0.0)), if series.is_some() { TYPED } else { ASSUMED })
}
