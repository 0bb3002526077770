//! The whole job: every core of every cable, from the old panel's screw to the new board's.

use super::{CableWiring, End, JobWiring, Line, Strip, parts};
use crate::land::{Plan, PlannedCore, To};
use crate::model::{CoreUse, Function, Job, JobCore, Power};
use crate::pack::cables::beside;
use crate::pack::names::{CoreName, cable_name, core_of, destination, function, item_name, item_names};

/// The wiring of a job.
pub(super) fn job(job: &Job, plan: &Plan) -> JobWiring {
    let mut old = Strip::of(&job.panel.unit);
    let mut new = Strip::of(&job.board.unit);
    let mut cables: Vec<CableWiring> = Vec::new();
    for (c, (cable, planned)) in job.cables.iter().zip(&plan.cables).enumerate() {
        let cores = planned.cores.iter().zip(&cable.cores);
        let lines = cores.map(|(core, today)| line(job, plan, c, core, today, &mut old, &mut new));
        cables.push(CableWiring {
            name: cable_name(job, c).into(),
            lines: lines.collect(),
            title: title(job, plan, c),
        });
    }
    cables.extend(feed(job, &mut old, &mut new));
    parts::of_board(job, plan, &mut new);
    parts::of_panel(job, &mut old);
    JobWiring { old, new, cables }
}

/// Where a cable goes and what will hang on it.
pub(super) fn title(job: &Job, plan: &Plan, at: usize) -> String {
    let place = job.cables.get(at).and_then(|c| c.survey.to.as_deref());
    let items: Vec<&str> = plan.items.iter().filter(|p| p.cable == at).map(|p| item_name(job, p.item)).collect();
    let items = if items.is_empty() { "nothing fitted".to_string() } else { items.join(", ") };
    match place {
        Some(place) => format!("{place}: {items}"),
        None => items,
    }
}

fn line(
    job: &Job,
    plan: &Plan,
    cable: usize,
    core: &PlannedCore,
    today: &JobCore,
    old: &mut Strip,
    new: &mut Strip,
) -> Line {
    let does = does(plan, cable, core);
    let whose = if core.items.is_empty() { String::new() } else { format!(" of {}", item_names(job, &core.items)) };
    let name = core_of(job, cable, &core.colour);
    let to = destination(job, plan, cable, core);
    Line {
        core: Some(CoreName::new(&core.colour)),
        title: format!("{name}: was on {}, goes to {to}; {does}{whose}", core.from),
        does,
        from: from(today, old),
        to: match &core.to {
            To::Terminal(mark) => End::Screw(new.screw(mark)),
            To::Join(name) => End::Screw(new.join(name)),
            To::Park => End::Insulated("insulate"),
            To::Leave => End::NotKnown("undecided"),
        },
    }
}

/// Where a core was found.
fn from(today: &JobCore, old: &mut Strip) -> End {
    match &today.on {
        CoreUse::Mark(mark) => End::Screw(old.screw(mark)),
        CoreUse::Join(name) => End::Screw(old.join(name)),
        CoreUse::Spare => End::Insulated("spare"),
        CoreUse::Broken => End::Insulated("broken"),
        CoreUse::Unknown => End::NotKnown("not known"),
    }
}

/// What a core does from now on, with its place in the tamper loop.
fn does(plan: &Plan, cable: usize, core: &PlannedCore) -> String {
    match &core.to {
        To::Leave => return "not touched".into(),
        To::Park => return "not used".into(),
        To::Terminal(_) | To::Join(_) => {}
    }
    let words = function(&core.function);
    if core.doubled {
        return format!("{words}, {}", beside(plan, cable, core));
    }
    match order(plan, core) {
        Some((at, of)) => format!("{words}, {at} of {of}"),
        None => words,
    }
}

/// The place of a tamper core's item in the tamper loop, and how many there are; of a loop on a shared input likewise.
fn order(plan: &Plan, core: &PlannedCore) -> Option<(usize, usize)> {
    let tamper = match core.function {
        Function::Tamper | Function::TamperReturn => true,
        Function::Alarm | Function::AlarmReturn => false,
        _ => return None,
    };
    let item = core.items.first()?;
    let run = plan.loops.iter().find(|l| l.tamper == tamper && l.items.contains(item))?;
    let at = run.items.iter().position(|i| i == item)?;
    (run.items.len() > 1).then_some((at + 1, run.items.len()))
}

/// The two wires that feed the board, where something else than itself does.
fn feed(job: &Job, old: &mut Strip, new: &mut Strip) -> Option<CableWiring> {
    let (positive, negative) = job.board.feed.as_ref()?.terminals.as_ref()?;
    let source = job.source.as_ref().filter(|s| *s.power != Power::Board)?;
    let out = source.block.and_then(|b| b.out.as_ref());
    let mut wire = |does: &str, from: Option<&String>, to: &String| {
        let end = match from {
            None => End::NotKnown("not known"),
            Some(mark) if *source.power == Power::Panel => End::Screw(old.screw(mark)),
            Some(mark) => End::Elsewhere(mark.clone()),
        };
        let words = from.map_or("an output whose mark is not known", String::as_str);
        let title = format!("New wire from {words} of {} to {to}: {does}", source.unit.name());
        Line { core: None, title, does: does.into(), from: end, to: End::Screw(new.screw(to)) }
    };
    let lines = vec![wire("feed +", out.map(|o| &o.0), positive), wire("feed −", out.map(|o| &o.1), negative)];
    Some(CableWiring { name: "Feed".into(), title: format!("two new wires from {}", source.unit.name()), lines })
}
