//! What leaves a state of a planned loop not known.

use super::super::case::Case;
use super::blank::{Blank, CARD, of_cable, or_itself};
use crate::model::Wiring;
use crate::work::LoopFigure;

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    let unknown = case.figures.loops.iter().filter(|l| l.states.iter().any(|s| s.ok.is_none()));
    unknown.flat_map(|figure| or_itself(of_loop(case, figure), case.input(figure.input))).collect()
}

fn of_loop(case: &Case<'_>, figure: &LoopFigure) -> Vec<Blank> {
    let board = &case.job.board;
    let missing = |missing: bool, what: &str| missing.then(|| Blank::blocker(&board.unit.id, what, CARD));
    let wiring = figure.wiring;
    let resistors = match wiring {
        Wiring::ClosedLoop => false,
        Wiring::SingleEol => board.eol.single.is_none(),
        Wiring::DoubleEol => board.eol.double.is_none(),
    };
    let tolerance = wiring != Wiring::ClosedLoop && board.eol.tolerance.is_none();
    let mut found: Vec<Blank> = [
        missing(board.bands.of(wiring).is_none(), &format!("its bands for {}", wiring.word())),
        missing(resistors, &format!("its resistors for {}", wiring.word())),
        missing(tolerance, "the tolerance of its resistors"),
    ]
    .into_iter()
    .flatten()
    .collect();
    for item in &figure.items {
        found.extend(case.plan.item(*item).into_iter().flat_map(|p| of_cable(case, p.cable)));
    }
    found
}
