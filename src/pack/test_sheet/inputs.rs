//! Every loop in each of its states: what the meter shows, and what the board must report then.

use super::{Case, Measure, Must, Stage};
use crate::model::{Band, LoopState, Wiring};
use crate::pack::electrics::{LoopRow, StateRow};
use crate::work::{LoopFigure, StateFigure};

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "Joins made, devices powered and settled, nothing moving, doors shut; both cores of the loop off their screws, \
         the meter across the two. Then land them and read what the board reports."
            .to_string(),
        "A closed loop that reads over half as much again and over 2 Ω more: look for a poor joint. Under half, and \
         over 2 Ω less: look for a short."
            .to_string(),
    ];
    let loops = case.figures.loops.iter().zip(&case.electrics.loops);
    let rows = loops.flat_map(|(run, row)| of_loop(case, run, row));
    Stage::new("Inputs, loop by loop", how, rows.collect())
}

/// A reading for each state of a loop.
fn of_loop(case: &Case, run: &LoopFigure, row: &LoopRow) -> Vec<Measure> {
    let states = run.states.iter().zip(&row.states);
    let tail = if row.tamper { "tamper loop" } else { row.wiring_text };
    let one = |(at, (figure, shown)): (usize, (&StateFigure, &StateRow))| {
        let names = if at == 0 { format!(": {}", row.names) } else { String::new() };
        Measure {
            reports: reports(case, run, figure, shown),
            ..Measure::new(&row.input, format!("input {}, {tail}{names}", row.input))
                .when(state(case, run, row, shown))
                .at(row.screws.clone())
                .reads(must(run, shown))
                .judged(shown.ok)
        }
    };
    states.enumerate().map(one).collect()
}

/// What the loop must be brought to.
fn state(case: &Case, run: &LoopFigure, row: &LoopRow, shown: &StateRow) -> String {
    let many = row.items.len() > 1;
    let text = match (shown.state, row.tamper) {
        ("alarm", true) if many => "one lid open, each in turn".to_string(),
        ("alarm", false) if many => "one of them in alarm, each in turn".to_string(),
        ("short", _) => "the two cores touched together".to_string(),
        _ => shown.state_text.to_string(),
    };
    if ends_at_negative(case, run) { format!("{text}; board OFF: it comes back over the supply −") } else { text }
}

fn ends_at_negative(case: &Case, run: &LoopFigure) -> bool {
    case.plan.loops.iter().any(|l| l.input == run.input && l.tamper == run.tamper && l.ends_at_negative)
}

fn must(run: &LoopFigure, shown: &StateRow) -> Must {
    if shown.open {
        return Must { open: true, ..Must::words("open: over range", "Ω") };
    }
    let text = match (shown.ohms.value, shown.range == shown.ohms.text) {
        (None, _) => "not known".to_string(),
        (Some(_), true) => shown.ohms.text.clone(),
        (Some(_), false) => format!("{} ({})", shown.ohms.text, shown.range),
    };
    let (expected, low, high) = (shown.ohms.value, shown.low.value, shown.high.value);
    let (least, most) = if run.wiring == Wiring::ClosedLoop { around(low, high) } else { (low, high) };
    Must { expected, low, high, ..Must::words(text, "Ω").held(least, most) }
}

/// What a closed loop may read before a joint or a short is looked for: the stage says it in words (common practice).
fn around(low: Option<f64>, high: Option<f64>) -> (Option<f64>, Option<f64>) {
    let least = low.map(|ohms| (ohms / 2.0).min(ohms - 2.0).max(0.0));
    (least, high.map(|ohms| (ohms * 1.5).max(ohms + 2.0)))
}

/// What the board must report, with its band.
fn reports(case: &Case, run: &LoopFigure, figure: &StateFigure, shown: &StateRow) -> String {
    let wanted = wanted(run, figure.state);
    let band = case.job.board.bands.of(run.wiring).map_or_else(
        || "its bands are not known".to_string(),
        |bands| bands.iter().find(|b| b.state == figure.reads.unwrap_or(wanted)).map_or_else(String::new, band),
    );
    let band = if band.is_empty() { band } else { format!(" ({band})") };
    match shown.ok {
        Some(true) => format!("{}{band}", shown.reads_text),
        Some(false) => format!("{}; by the figures it reports {}", wanted.word(), shown.reads_text),
        None => format!("{}{band}; not known whether it will", wanted.word()),
    }
}

/// What the board should report in a state.
fn wanted(run: &LoopFigure, state: LoopState) -> LoopState {
    match (run.wiring, state) {
        (Wiring::ClosedLoop | Wiring::SingleEol, LoopState::Tamper) => LoopState::Alarm,
        _ => state,
    }
}

/// A band in words.
fn band(band: &Band) -> String {
    match (band.from, band.to) {
        (Some(from), Some(to)) => format!("{from} to {to}"),
        (Some(from), None) => format!("{from} and up"),
        (None, Some(to)) => format!("under {to}"),
        (None, None) => "anything".into(),
    }
}
