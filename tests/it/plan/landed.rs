//! What must hold of every landed plan.

use super::colours::{Cores, Use, colours, own_functions};
use super::doubled::doubled_counts;
use super::loops::check_loops;
use super::options::needs;
use std::collections::BTreeMap;
use wirelore::land::{Plan, PlannedCore, To};
use wirelore::model::{CoreUse, Fires, Function, Job, JobCore, OutputKind};

/// What a check found wrong.
pub(crate) type Checked = Result<(), String>;

/// Everything that must hold of a plan of this job.
pub(crate) fn check(job: &Job<'_>, plan: &Plan) -> Checked {
    let cores = colours(job, &plan.choice);
    every_core_once(job, plan)?;
    as_coloured(job, plan, &cores)?;
    nothing_forbidden(job, plan)?;
    numbers(plan)?;
    screws(job, plan, &cores)?;
    triggers(job, plan)?;
    items(job, plan)?;
    pairs(job, plan)?;
    joins(plan)?;
    doubling(job, plan)?;
    check_loops(job, plan)
}

/// Says what is wrong unless `holds`.
pub(crate) fn ensure(holds: bool, wrong: impl FnOnce() -> String) -> Checked {
    if holds { Ok(()) } else { Err(wrong()) }
}

fn every_core_once(job: &Job<'_>, plan: &Plan) -> Checked {
    ensure(plan.cables.len() == job.cables.len(), || "a cable is missing".into())?;
    for (cable, planned) in job.cables.iter().zip(&plan.cables) {
        let colours: Vec<&str> = planned.cores.iter().map(|core| core.colour.as_str()).collect();
        let there: Vec<&str> = cable.kind.cores.iter().map(String::as_str).collect();
        ensure(colours == there, || format!("{}: cores {colours:?}, not {there:?}", cable.survey.cable))?;
        for (core, planned) in cable.cores.iter().zip(&planned.cores) {
            ensure(planned.from == core.on.word(), || format!("{}: from {}", cable.survey.cable, planned.from))?;
        }
    }
    Ok(())
}

/// The planned cores of a cable beside those of the colour rule.
fn side_by_side<'a>(
    plan: &'a Plan,
    cores: &'a Cores,
) -> impl Iterator<Item = (usize, usize, &'a PlannedCore, Option<&'a Use>)> {
    let cables = plan.cables.iter().zip(cores).enumerate();
    cables.flat_map(|(c, (planned, cores))| {
        let both = planned.cores.iter().zip(cores).enumerate();
        both.map(move |(k, (planned, core))| (c, k, planned, core.as_ref()))
    })
}

fn as_coloured(job: &Job<'_>, plan: &Plan, cores: &Cores) -> Checked {
    for (c, _, planned, core) in side_by_side(plan, cores) {
        let says = || format!("{} {}: {planned:?}, not {core:?}", job.cables[c].survey.cable, planned.colour);
        match core {
            Some(core) => {
                let same = planned.function == core.function && planned.items == core.items;
                ensure(same && planned.kept == core.kept && !planned.doubled, says)?;
            }
            None if planned.doubled => {
                let beside = |other: &PlannedCore| {
                    !other.doubled && other.function == planned.function && other.items == planned.items
                };
                ensure(planned.function.is_supply() && !planned.kept, says)?;
                ensure(plan.cables[c].cores.iter().any(beside), says)?;
            }
            None => ensure(planned.function == Function::Spare && planned.items.is_empty() && !planned.kept, says)?,
        }
    }
    Ok(())
}

/// No broken or unknown core, none of an item that nobody has decided about, and not the supply cores where such
/// an item alone is served.
fn nothing_forbidden(job: &Job<'_>, plan: &Plan) -> Checked {
    for (c, cable) in job.cables.iter().enumerate() {
        for (core, planned) in cable.cores.iter().zip(&plan.cables[c].cores) {
            let used = planned.function != Function::Spare;
            let forbidden = matches!(core.on, CoreUse::Broken | CoreUse::Unknown) || is_undecideds(job, c, core);
            ensure(!(used && forbidden), || format!("{} {} may not be used", cable.survey.cable, core.colour))?;
        }
    }
    Ok(())
}

/// Whether a core is held by an undecided item.
fn is_undecideds(job: &Job<'_>, cable: usize, core: &JobCore<'_>) -> bool {
    let undecided = |name: &str| job.undecided.iter().any(|(_, served)| served.item == name);
    let supply = core.function.as_ref().is_some_and(Function::is_supply);
    match job.cables[cable].survey.serves.as_slice() {
        [alone] if supply => undecided(&alone.item),
        _ => core.owner.is_some_and(undecided),
    }
}

/// `moved` and `used`, counted before doubling.
fn numbers(plan: &Plan) -> Checked {
    let all = plan.cables.iter().flat_map(|cable| &cable.cores);
    let used: Vec<&PlannedCore> = all.filter(|core| core.function != Function::Spare && !core.doubled).collect();
    let moved = used.iter().filter(|core| !core.kept).count();
    let cost = plan.choice.cost;
    let counted = (moved, used.len());
    ensure(counted == (cost.moved as usize, cost.used as usize), || {
        format!("moved and used are {counted:?}, the cost says {} and {}", cost.moved, cost.used)
    })
}

/// Where every core lands but those of loops, which are walked.
fn screws(job: &Job<'_>, plan: &Plan, cores: &Cores) -> Checked {
    for (c, k, planned, core) in side_by_side(plan, cores) {
        let doubled = || side_by_side(plan, cores).filter_map(move |(at, _, _, core)| core.filter(|_| at == c));
        let core = core.or_else(|| {
            doubled().find(|core| planned.doubled && core.function == planned.function && core.items == planned.items)
        });
        let due = match core {
            None if job.cables[c].cores[k].held => Some(To::Leave),
            None => Some(To::Park),
            Some(core) => screw(job, plan, core).map(To::Terminal),
        };
        ensure(due.as_ref().is_none_or(|due| *due == planned.to), || {
            format!("{} {}: to {:?}, not {due:?}", job.cables[c].survey.cable, planned.colour, planned.to)
        })?;
    }
    Ok(())
}

/// The terminal of a supply, trigger or bus core; `None` for a core of a loop.
fn screw(job: &Job<'_>, plan: &Plan, core: &Use) -> Option<String> {
    let item = *core.items.first()?;
    match &core.function {
        Function::SupplyPositive => Some(job.board.supplies[core.supply?].positive.clone()),
        Function::SupplyNegative => Some(job.board.supplies[core.supply?].negative.clone()),
        Function::Data(n) => job.board.unit.keypad.get()?.data.get(n - 1).cloned(),
        Function::Trigger(name) => {
            let triggers = &job.items[item].device.triggers;
            let at = triggers.iter().position(|t| t.trigger == *name)?;
            let output = *plan.choice.items[item].as_ref().ok()?.outputs.get(at)?;
            contact(&job.board.outputs[output].kind, triggers[at].fires?).map(|(mark, _)| mark)
        }
        _ => None,
    }
}

/// The contact of an output that fires this way: its terminal and its name.
fn contact(kind: &OutputKind, fires: Fires) -> Option<(String, &'static str)> {
    match (kind, fires) {
        (OutputKind::OpenCollector { terminal }, Fires::NegativeApplied) => Some((terminal.clone(), "open-collector")),
        (OutputKind::OpenCollector { .. }, _) => None,
        (OutputKind::Relay { normally_open, .. }, Fires::NegativeApplied | Fires::PositiveApplied) => {
            Some((normally_open.clone()?, "normally-open"))
        }
        (OutputKind::Relay { normally_closed, .. }, _) => Some((normally_closed.clone()?, "normally-closed")),
    }
}

fn triggers(job: &Job<'_>, plan: &Plan) -> Checked {
    let mut planned = plan.triggers.iter();
    for (item, chosen) in plan.choice.items.iter().enumerate() {
        let Ok(chosen) = chosen else { continue };
        for (at, trigger) in job.items[item].device.triggers.iter().enumerate() {
            let found = planned.next().ok_or("a trigger is missing")?;
            let output = *chosen.outputs.get(at).ok_or("a trigger has no output")?;
            let fires = trigger.fires.ok_or("a trigger that nobody knows is planned")?;
            let (terminal, contact) = contact(&job.board.outputs[output].kind, fires).ok_or("no such contact")?;
            let supply = &job.board.supplies[chosen.supply.ok_or("a sounder is not fed")?];
            let positive = matches!(fires, Fires::PositiveApplied | Fires::PositiveRemoved);
            let common = if positive { supply.positive.clone() } else { supply.negative.clone() };
            let relay = matches!(job.board.outputs[output].kind, OutputKind::Relay { .. });
            let core = &plan.cables[chosen.cable].cores[found.core];
            let holds = (found.item, found.trigger, found.output) == (item, at, output)
                && (found.contact, &found.terminal) == (contact, &terminal)
                && found.common == relay.then_some((common, positive))
                && core.items == [item]
                && core.function == Function::Trigger(trigger.trigger.clone());
            ensure(holds, || format!("trigger {at} of item {item}: {found:?}"))?;
        }
    }
    ensure(planned.next().is_none(), || "a trigger too many".into())
}

/// Each item has exactly the cores that its method needs, in their order, and a spare if there is one.
fn items(job: &Job<'_>, plan: &Plan) -> Checked {
    let needs = needs(job);
    let mut planned = plan.items.iter();
    for (item, chosen) in plan.choice.items.iter().enumerate() {
        let Ok(chosen) = chosen else { continue };
        let found = planned.next().ok_or("an item is missing")?;
        let same =
            (found.item, found.cable, found.method, found.input) == (item, chosen.cable, chosen.method, chosen.input);
        ensure(same, || format!("item {item}: {found:?}"))?;
        let cores = &plan.cables[chosen.cable].cores;
        let mut has: Vec<Function> = found.cores.iter().map(|k| cores[*k].function.clone()).collect();
        has.dedup_by(|next, last| next == last && next.is_supply());
        let rails = [Function::SupplyPositive, Function::SupplyNegative].into_iter().zip(needs[item].rails);
        let mut due: Vec<Function> = rails.filter(|(_, needed)| *needed).map(|(function, _)| function).collect();
        due.extend(own_functions(&job.items[item], chosen));
        ensure(has == due, || format!("item {item} has {has:?}, not {due:?}"))?;
        let uses = (0..cores.len()).filter(|k| cores[*k].items.contains(&item)).count();
        let all = found.cores.iter().all(|k| cores[*k].items.contains(&item));
        ensure(all && uses == found.cores.len(), || format!("item {item}: cores {:?}", found.cores))?;
        let free = |k: usize| job.cables[chosen.cable].cores[k].usable && cores[k].function == Function::Spare;
        let any = (0..cores.len()).any(free);
        ensure(found.spare.is_some() == any && found.spare.is_none_or(free), || {
            format!("item {item}: spare {:?}", found.spare)
        })?;
    }
    ensure(planned.next().is_none(), || "an item too many".into())
}

/// The supply pairs, by cable and then by supply.
fn pairs(job: &Job<'_>, plan: &Plan) -> Checked {
    let mut due: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (item, chosen) in plan.choice.items.iter().enumerate() {
        if let Ok(chosen) = chosen
            && let Some(supply) = chosen.supply
        {
            due.entry((chosen.cable, supply)).or_default().push(item);
        }
    }
    let has: Vec<((usize, usize), Vec<usize>)> =
        plan.pairs.iter().map(|pair| ((pair.cable, pair.supply), pair.items.clone())).collect();
    let due: Vec<((usize, usize), Vec<usize>)> = due.into_iter().collect();
    ensure(has == due, || format!("pairs {has:?}, not {due:?}"))?;
    for pair in &plan.pairs {
        let supply = &job.board.supplies[pair.supply];
        for (cores, function, mark) in [
            (&pair.positive, Function::SupplyPositive, &supply.positive),
            (&pair.negative, Function::SupplyNegative, &supply.negative),
        ] {
            let all = plan.cables[pair.cable].cores.iter().enumerate();
            let its = all.filter(|(_, core)| core.function == function && core.to == To::Terminal(mark.clone()));
            let its: Vec<usize> = its.map(|(k, _)| k).collect();
            ensure(*cores == its, || format!("{pair:?}: {function} on {its:?}"))?;
        }
    }
    Ok(())
}

/// Every join has two ends.
fn joins(plan: &Plan) -> Checked {
    let mut ends: BTreeMap<&str, u32> = BTreeMap::new();
    for core in plan.cables.iter().flat_map(|cable| &cable.cores) {
        if let To::Join(name) = &core.to {
            *ends.entry(name).or_default() += 1;
        }
    }
    ensure(ends.values().all(|count| *count == 2), || format!("joins {ends:?}"))
}

/// Each pair has as many cores on each side as the rule gives it.
fn doubling(job: &Job<'_>, plan: &Plan) -> Checked {
    let Some(due) = doubled_counts(job, plan) else { return Ok(()) };
    let has: Vec<[usize; 2]> = plan.pairs.iter().map(|pair| [pair.positive.len(), pair.negative.len()]).collect();
    ensure(has == due, || format!("pairs have {has:?} cores, not {due:?}: {:?}", plan.pairs))
}
