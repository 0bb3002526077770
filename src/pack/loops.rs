//! The order of loops: of the old ones that were made of joins, of the new tamper loop, of shared inputs.

use super::names::{cable_name, core_of, item_name};
use crate::land::{Plan, PlannedCore, PlannedLoop, To};
use crate::model::{CoreUse, Function, Job, Pair};
use serde::Serialize;

/// A loop in order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LoopView {
    /// Which loop.
    pub what: String,
    /// From screw to screw, step by step.
    pub steps: Vec<String>,
    /// What to know about it; empty when nothing.
    pub remark: String,
}

/// The old loops that run through joins, zones first, then tampers.
#[must_use]
pub fn old(job: &Job) -> Vec<LoopView> {
    let mut loops = Vec::new();
    for zone in &job.panel.zones {
        loops.push((format!("Zone {}", zone.zone), &zone.pair, false));
        if let Some(pair) = &zone.tamper {
            loops.push((format!("Zone {} tamper", zone.zone), pair, true));
        }
    }
    if let Some(pair) = job.panel.tamper.get() {
        loops.push(("Tamper".to_string(), pair, true));
    }
    loops.into_iter().flat_map(|(what, pair, tamper)| walks(job, &what, pair, tamper)).collect()
}

/// A core by cable and place.
type At = (usize, usize);

/// The walks from a pair's first screw that pass a join.
fn walks(job: &Job, what: &str, pair: &Pair, tamper: bool) -> Vec<LoopView> {
    let (out, back) =
        if tamper { (Function::Tamper, Function::TamperReturn) } else { (Function::Alarm, Function::AlarmReturn) };
    let starts = every_core(job).filter(|at| on_mark(job, *at, &pair.out) && does(job, *at, &out));
    starts.filter_map(|start| walk(job, what, pair, start, &back)).collect()
}

/// One walk down a loop; `None` when it passes no join.
fn walk(job: &Job, what: &str, pair: &Pair, start: At, back: &Function) -> Option<LoopView> {
    let mut steps = vec![pair.out.clone()];
    let mut seen: Vec<At> = Vec::new();
    let (mut down, mut joined) = (start, false);
    let remark = loop {
        if seen.contains(&down) {
            break "It comes back to where it has been: trace it on site.";
        }
        seen.push(down);
        let Some(owner) = core(job, down).and_then(|c| c.owner) else {
            steps.push(core_text(job, down));
            break "Nobody knows whose the last core is: trace it on site.";
        };
        let returns: Vec<At> = every_core(job)
            .filter(|at| at.0 == down.0 && *at != down && does(job, *at, back))
            .filter(|at| core(job, *at).is_some_and(|c| c.owner == Some(owner)))
            .collect();
        steps.push(format!("{} to {owner}", core_text(job, down)));
        let [up] = returns.as_slice() else { break "It could not be followed further: trace it on site." };
        match core(job, *up).map(|c| &c.on) {
            Some(CoreUse::Mark(mark)) => {
                steps.push(format!("{} to {mark}", core_text(job, *up)));
                break "";
            }
            Some(CoreUse::Join(name)) => {
                joined = true;
                steps.push(format!("{} to join {name}", core_text(job, *up)));
                let ends: Vec<At> = every_core(job).filter(|at| at != up && in_join(job, *at, name)).collect();
                let [next] = ends.as_slice() else { break "The join has no single other end: trace it on site." };
                down = *next;
            }
            _ => break "It could not be followed further: trace it on site.",
        }
    };
    joined.then(|| LoopView { what: what.to_string(), steps, remark: remark.to_string() })
}

fn every_core<'j>(job: &'j Job) -> impl Iterator<Item = At> + 'j {
    job.cables.iter().enumerate().flat_map(|(c, cable)| (0..cable.cores.len()).map(move |k| (c, k)))
}

fn core<'j, 'a>(job: &'j Job<'a>, at: At) -> Option<&'j crate::model::JobCore<'a>> {
    job.cables.get(at.0)?.cores.get(at.1)
}

fn on_mark(job: &Job, at: At, mark: &str) -> bool {
    core(job, at).is_some_and(|c| matches!(&c.on, CoreUse::Mark(m) if m == mark))
}

fn in_join(job: &Job, at: At, name: &str) -> bool {
    core(job, at).is_some_and(|c| matches!(&c.on, CoreUse::Join(n) if n == name))
}

fn does(job: &Job, at: At, function: &Function) -> bool {
    core(job, at).is_some_and(|c| c.function.as_ref() == Some(function))
}

fn core_text(job: &Job, at: At) -> String {
    core(job, at).map_or_else(|| cable_name(job, at.0).to_string(), |c| core_of(job, at.0, c.colour))
}

/// The new tamper loop, and every input with more than one alarm loop.
#[must_use]
pub fn new(job: &Job, plan: &Plan) -> Vec<LoopView> {
    plan.loops.iter().filter(|l| l.tamper || l.items.len() > 1).map(|l| planned(job, plan, l)).collect()
}

fn planned(job: &Job, plan: &Plan, run: &PlannedLoop) -> LoopView {
    let input = job.board.inputs.get(run.input);
    let name = input.map_or("", |i| i.input.as_str());
    let (out, back) =
        if run.tamper { (Function::Tamper, Function::TamperReturn) } else { (Function::Alarm, Function::AlarmReturn) };
    let mut steps = vec![input.map_or_else(String::new, |i| i.out.clone())];
    for item in &run.items {
        steps.extend(leg(job, plan, *item, &out, &back));
    }
    let what = if run.tamper { format!("New tamper loop, input {name}") } else { format!("Shared input {name}") };
    let remark = if run.ends_at_negative {
        "The last tamper comes back over the supply negative: the loop's return screw stays empty.".into()
    } else {
        String::new()
    };
    LoopView { what, steps, remark }
}

/// Down one core to an item and back by the other.
fn leg(job: &Job, plan: &Plan, item: usize, out: &Function, back: &Function) -> Vec<String> {
    let Some(planned) = plan.item(item) else { return Vec::new() };
    let cores = plan.cables.get(planned.cable).map_or(&[][..], |c| c.cores.as_slice());
    let with = |f: &Function| planned.cores.iter().filter_map(|k| cores.get(*k)).find(|c| c.function == *f);
    let text = |core: &PlannedCore| core_of(job, planned.cable, &core.colour);
    let down = with(out).map(|core| format!("{} to {}", text(core), item_name(job, item)));
    let up = with(back).map(|core| match &core.to {
        To::Terminal(mark) => format!("{} to {mark}", text(core)),
        To::Join(name) => format!("{} to join {name}", text(core)),
        To::Park | To::Leave => text(core),
    });
    let up = up.or_else(|| Some("back over the supply negative".to_string()));
    [down, up].into_iter().flatten().collect()
}
