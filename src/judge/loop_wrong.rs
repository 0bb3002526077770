//! `loop`: a planned loop that the board would report wrongly in some state: an alarm that reads as normal, or a
//! loop at rest that reads as an alarm.

use super::case::{Case, ohms};
use super::types::Finding;
use crate::work::{LoopFigure, StateFigure, cure};

const CODE: &str = "loop";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.figures.loops.iter().filter_map(|figure| of_loop(case, figure)).collect()
}

fn of_loop(case: &Case<'_>, figure: &LoopFigure) -> Option<Finding> {
    let wrong: Vec<String> = figure.states.iter().filter(|s| s.ok == Some(false)).map(state).collect();
    if wrong.is_empty() {
        return None;
    }
    let input = case.input(figure.input);
    let cure = cure::loops(case.job, case.plan, figure).map(|cure| format!(" {}", cure.text(case.job)));
    let says = format!(
        "Input {input} ({}, {}) would be read wrongly: {}.{}",
        case.names(&figure.items),
        figure.wiring.word(),
        wrong.join("; "),
        cure.unwrap_or_default()
    );
    Some(Finding::blocker(CODE, input, says))
}

/// One state with what the board makes of it.
fn state(figure: &StateFigure) -> String {
    let reading = match (figure.open, figure.ohms.value, figure.low, figure.high) {
        (true, ..) => "open".to_string(),
        (_, Some(nominal), Some(low), Some(high)) if low < high => {
            format!("{} ({} to {})", ohms(nominal), ohms(low), ohms(high))
        }
        (_, Some(nominal), ..) => ohms(nominal),
        _ => "not known".to_string(),
    };
    let reads = figure.reads.map_or("nothing the board defines", crate::model::LoopState::word);
    format!("{} is {reading}, nominally {reads}", figure.state.word())
}
