//! Walks every planned loop from its input's first terminal to the second.

use super::landed::{Checked, ensure};
use std::collections::BTreeMap;
use wirelore::land::{Plan, PlannedCore, PlannedLoop, To};
use wirelore::model::{Function, Job, Returns};

/// Every loop is there, closes, and has its terminals for itself.
pub(crate) fn check_loops(job: &Job<'_>, plan: &Plan) -> Checked {
    let has: Vec<(usize, bool, Vec<usize>)> =
        plan.loops.iter().map(|l| (l.input, l.tamper, sorted(&l.items))).collect();
    let due = due(plan);
    ensure(has == due, || format!("loops {has:?}, not {due:?}"))?;
    for run in &plan.loops {
        ensure(run.wiring == wiring(plan, run), || format!("{run:?}: wiring"))?;
        walk(job, plan, run)?;
    }
    only_loops_on_inputs(job, plan)
}

fn sorted(items: &[usize]) -> Vec<usize> {
    let mut items = items.to_vec();
    items.sort_unstable();
    items
}

/// The alarm loops in input order, then the tamper loop.
fn due(plan: &Plan) -> Vec<(usize, bool, Vec<usize>)> {
    let mut alarms: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let mut tampers = Vec::new();
    for (item, chosen) in plan.choice.items.iter().enumerate() {
        let Ok(chosen) = chosen else { continue };
        if let Some(input) = chosen.input {
            alarms.entry(input).or_default().push(item);
        }
        if chosen.in_tamper_loop {
            tampers.push(item);
        }
    }
    let alarms = alarms.into_iter().map(|(input, items)| (input, false, items));
    alarms.chain(plan.choice.tamper_input.map(|input| (input, true, tampers))).collect()
}

fn wiring(plan: &Plan, run: &PlannedLoop) -> wirelore::model::Wiring {
    let first = run.items.first().and_then(|item| plan.choice.items[*item].as_ref().ok());
    let alarm = first.and_then(|chosen| chosen.method.wiring()).filter(|_| !run.tamper);
    alarm.unwrap_or(wirelore::model::Wiring::ClosedLoop)
}

fn walk(job: &Job<'_>, plan: &Plan, run: &PlannedLoop) -> Checked {
    let (out, back) =
        if run.tamper { (Function::Tamper, Function::TamperReturn) } else { (Function::Alarm, Function::AlarmReturn) };
    let input = &job.board.inputs[run.input];
    let mut on = To::Terminal(input.out.clone());
    let mut passed = Vec::new();
    loop {
        let (item, _) = end(plan, &on, &out).ok_or_else(|| format!("{run:?}: no {out} core on {on}"))?;
        passed.push(item);
        ensure(passed.len() <= run.items.len(), || format!("{run:?}: never closes"))?;
        let one_core = run.tamper && job.items[item].device.tamper_returns() == Some(Returns::Negative);
        if one_core {
            ensure(run.ends_at_negative && input.returns_negative, || format!("{run:?}: ends at the negative"))?;
            break;
        }
        let returning = plan.cables.iter().flat_map(|cable| &cable.cores);
        let its: Vec<&PlannedCore> = returning.filter(|core| core.function == back && core.items == [item]).collect();
        let [core] = its.as_slice() else { return Err(format!("{run:?}: item {item} has {its:?}")) };
        if core.to == To::Terminal(input.back.clone()) {
            ensure(!run.ends_at_negative, || format!("{run:?}: does not end at the negative"))?;
            break;
        }
        on = core.to.clone();
        ensure(matches!(on, To::Join(_)), || format!("{run:?}: stops at {on}"))?;
    }
    ensure(passed == run.items, || format!("{run:?}: walked {passed:?}"))
}

/// The one core with this function that lands there, and its item.
fn end<'a>(plan: &'a Plan, on: &To, function: &Function) -> Option<(usize, &'a PlannedCore)> {
    let cores = plan.cables.iter().flat_map(|cable| &cable.cores);
    let its: Vec<&PlannedCore> = cores.filter(|core| core.to == *on && core.function == *function).collect();
    match its.as_slice() {
        [one] => Some((*one.items.first()?, one)),
        _ => None,
    }
}

/// An input's terminals carry the ends of its loop and nothing else; one return may serve several inputs.
fn only_loops_on_inputs(job: &Job<'_>, plan: &Plan) -> Checked {
    let mut due: BTreeMap<&str, usize> = BTreeMap::new();
    for input in &job.board.inputs {
        due.insert(&input.out, 0);
        due.insert(&input.back, 0);
    }
    for run in &plan.loops {
        let input = &job.board.inputs[run.input];
        *due.entry(&input.out).or_default() += 1;
        *due.entry(&input.back).or_default() += usize::from(!run.ends_at_negative);
    }
    for (mark, due) in due {
        let on = To::Terminal(mark.into());
        let has = plan.cables.iter().flat_map(|cable| &cable.cores).filter(|core| core.to == on).count();
        ensure(has == due, || format!("{mark} carries {has} cores, not {due}"))?;
    }
    Ok(())
}
