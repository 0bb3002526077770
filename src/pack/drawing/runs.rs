//! Loops in their order: the new tamper loop, and each input with more than one alarm loop.

use super::{Leg, Run};
use crate::land::{Plan, PlannedCore, PlannedLoop, To};
use crate::model::{Function, Job};
use crate::pack::names::{CoreName, cable_name, item_name};

/// The loops that have an order.
pub(super) fn runs(job: &Job, plan: &Plan) -> Vec<Run> {
    plan.loops.iter().filter(|l| l.tamper || l.items.len() > 1).filter_map(|l| run(job, plan, l)).collect()
}

fn run(job: &Job, plan: &Plan, run: &PlannedLoop) -> Option<Run> {
    let input = job.board.inputs.get(run.input)?;
    let functions =
        if run.tamper { [Function::Tamper, Function::TamperReturn] } else { [Function::Alarm, Function::AlarmReturn] };
    let what = if run.tamper { "Tamper loop" } else { "Shared loop" };
    Some(Run {
        name: format!("{what}, input {}", input.input),
        out: input.out.clone(),
        back: if run.ends_at_negative { negative(job, plan, run) } else { input.back.clone() },
        legs: run.items.iter().filter_map(|item| leg(job, plan, *item, &functions)).collect(),
    })
}

/// The supply negative on which a loop ends whose last tamper comes back over it.
fn negative(job: &Job, plan: &Plan, run: &PlannedLoop) -> String {
    let pair = run.items.last().and_then(|item| plan.pair_of(*item));
    let supply = pair.and_then(|pair| job.board.supplies.get(pair.supply));
    supply.map_or_else(|| "supply −".into(), |supply| supply.negative.clone())
}

fn leg(job: &Job, plan: &Plan, item: usize, [out, back]: &[Function; 2]) -> Option<Leg> {
    let planned = plan.item(item)?;
    let cores = plan.cables.get(planned.cable)?.cores.as_slice();
    let with = |f: &Function| planned.cores.iter().filter_map(|k| cores.get(*k)).find(|c| c.function == *f);
    let name = |core: &PlannedCore| CoreName::new(&core.colour);
    let (out, back) = (with(out), with(back));
    let join = back.and_then(|core| match &core.to {
        To::Join(name) => Some(name.clone()),
        To::Terminal(_) | To::Park | To::Leave => None,
    });
    Some(Leg {
        item: item_name(job, item).into(),
        cable: cable_name(job, planned.cable).into(),
        out: out.map(name),
        back: back.map(name),
        join,
    })
}
