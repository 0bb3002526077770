//! Every output: idle, fired, and what it carries; the sounders on it.

use super::{Case, Measure, Must, Stage, far_end};
use crate::land::PlannedTrigger;
use crate::land::volts::{Moment, supply_volts};
use crate::model::{Fires, Output, OutputKind};
use crate::pack::names::{core_of, item_name};
use crate::units::Volts;

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "Idle and fired: relay commons and pull-up resistors on; sounder not connected, its own battery out, the trigger core not landed; the probes on the board. A few tenths of a volt on a screw \
         that hangs free count as 0 V; a transistor that fires may keep up to about 1 V (common practice)."
            .to_string(),
        "Then land it and connect the sounder as the safety steps say. Ears protected, everybody warned, nobody on a \
         ladder while it sounds."
            .to_string(),
    ];
    let mut rows: Vec<Measure> =
        case.job.board.outputs.iter().enumerate().flat_map(|(at, output)| of_output(case, at, output)).collect();
    rows.extend(far_end::rows(case, true));
    Stage::new("Outputs and sounders", how, rows)
}

/// The readings of one output.
fn of_output(case: &Case, at: usize, output: &Output) -> Vec<Measure> {
    let used: Vec<&PlannedTrigger> = case.plan.triggers.iter().filter(|t| t.output == at).collect();
    if used.is_empty() {
        return vec![unused(output)];
    }
    let mut rows: Vec<Measure> = used.iter().flat_map(|t| of_trigger(case, output, t)).collect();
    rows.extend(current(case, output, &used));
    rows
}

/// An output that nothing uses.
fn unused(output: &Output) -> Measure {
    let marks = match &output.kind {
        OutputKind::OpenCollector { terminal } => terminal.clone(),
        OutputKind::Relay { common, normally_open, normally_closed } => {
            let others = [normally_open, normally_closed].into_iter().flatten();
            std::iter::once(common).chain(others).cloned().collect::<Vec<_>>().join(", ")
        }
    };
    Measure::new(&output.output, format!("output {}: not used", output.output))
        .when("as left")
        .at(format!("look at {marks}"))
        .reads(Must::words("no wire on it", ""))
}

/// An output idle and fired, across the screw and the side of the supply it switches against.
fn of_trigger(case: &Case, output: &Output, planned: &PlannedTrigger) -> Vec<Measure> {
    let device = case.job.items.get(planned.item).and_then(|i| i.device.triggers.get(planned.trigger));
    let Some((trigger, fires)) = device.and_then(|t| Some((t, t.fires?))) else { return Vec::new() };
    let cable = case.plan.item(planned.item).map_or(0, |p| p.cable);
    let core = case.plan.cables.get(cable).and_then(|c| c.cores.get(planned.core));
    let core = core.map_or_else(String::new, |core| core_of(case.job, cable, &core.colour));
    let supply = case.plan.pair_of(planned.item).map(|pair| pair.supply);
    let full = supply.and_then(|s| supply_volts(case.job, s, Moment::Mains)).and_then(Volts::new);
    let against = against(case, supply, fires);
    let probes = format!("{against} and {} (for {core})", planned.terminal);
    let item = item_name(case.job, planned.item);
    let row = |state: &str, on: bool| {
        let must = if on { Must::about(full, "V") } else { Must::given(Volts::new(0.0), "V") };
        Measure::new(&output.output, format!("output {}: {} of {item}", output.output, trigger.trigger))
            .when(state)
            .at(probes.clone())
            .reads(must)
    };
    let applied = fires.is_applied();
    vec![row("idle, core not landed", !applied), row("fired, core not landed", applied)]
}

/// The screw to measure against: the other side than the one that the output switches to.
fn against(case: &Case, supply: Option<usize>, fires: Fires) -> String {
    let supply = supply.and_then(|s| case.job.board.supplies.get(s));
    let mark = supply.map(|s| if fires.is_negative() { &s.positive } else { &s.negative });
    mark.cloned().unwrap_or_else(|| if fires.is_negative() { "supply +".into() } else { "supply −".into() })
}

/// What an output carries while it fires. One that fires by taking away carries nothing then: the sounder's current
/// comes over its supply pair.
fn current(case: &Case, output: &Output, used: &[&PlannedTrigger]) -> Option<Measure> {
    if used.iter().any(|planned| planned.contact == "normally-closed") {
        return None;
    }
    let what = format!("output:{}", output.output);
    let row = case.electrics.loading.iter().find(|l| l.what == what)?;
    let mut marks: Vec<&str> = Vec::new();
    for planned in used {
        if !marks.contains(&planned.terminal.as_str()) {
            marks.push(&planned.terminal);
        }
    }
    let probes = format!("in series, between {} and the cores that land on it", marks.join(", "));
    Some(
        Measure::new(&output.output, format!("current of output {}", output.output))
            .when("all that is on it connected and fired")
            .at(probes)
            .reads(Must::at_most(&row.alarm, &row.alarm_limit))
            .judged(row.ok),
    )
}
