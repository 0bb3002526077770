//! `pull-up`: a sounder that watches its trigger wire, on an output without a resistor to positive. Without one it
//! chirps for ever.

use super::case::Case;
use super::types::Finding;
use crate::land::PlannedTrigger;

const CODE: &str = "pull-up";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.plan.triggers.iter().filter_map(|planned| of_trigger(case, planned)).collect()
}

fn of_trigger(case: &Case<'_>, planned: &PlannedTrigger) -> Option<Finding> {
    let item = case.job.items.get(planned.item)?;
    let trigger = item.device.triggers.get(planned.trigger)?;
    let wants = trigger.pull_up?;
    let output = case.job.board.outputs.get(planned.output).filter(|o| o.pull_up.get().is_none())?;
    let says = format!(
        "{} watches its {} wire. Fit {wants} from {} to positive at the board (output {} has none built in).",
        item.name(),
        trigger.trigger,
        planned.terminal,
        output.output
    );
    Some(Finding::note(CODE, item.name(), says))
}
