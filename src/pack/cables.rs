//! Cable by cable, core by core: what each core did, from which mark, to which mark, join or end made safe.

use super::names::{CoreName, core_of, destination, function, item_name, item_names, method};
use super::notes::on_mark;
use super::resistors::at_device;
use crate::land::{CableLength, Plan, PlannedCore, PlannedItem, To};
use crate::model::{CoreUse, Job, JobCore, Measured, Reach, Served};
use crate::units::Metres;
use serde::Serialize;

/// A cable as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CableView {
    /// Its name.
    pub cable: String,
    /// Where it goes; `not said`.
    pub to: String,
    /// What it is.
    pub kind: String,
    /// Its length, and where that comes from.
    pub length: String,
    /// What is written on it; `nothing seen`.
    pub label: String,
    /// Alternating volts on its cores; `not read`.
    pub ac: String,
    /// Loops measured.
    pub measured: Vec<String>,
    /// What hangs on it, one line each, with the spare core to fall back on.
    pub items: Vec<ItemLine>,
    /// Every core, in cable order.
    pub cores: Vec<CoreRow>,
    /// Notes of earlier jobs on the marks its cores come from.
    pub notes: Vec<String>,
}

/// What hangs on a cable.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ItemLine {
    /// Its name.
    pub item: String,
    /// Kept, new, removed or not decided; its device.
    pub what: String,
    /// How it is wired; empty for what is not fitted.
    pub wiring: String,
    /// What to do inside the device; empty for what is not fitted.
    pub at_device: String,
    /// The core to fall back on; `none left`; empty for what is not fitted.
    pub spare: String,
}

/// One core.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CoreRow {
    /// Its colour.
    pub core: CoreName,
    /// What it did; `nothing`, `not known`.
    pub was: String,
    /// The panel's mark, or the survey's word.
    pub from: String,
    /// What it does from now on.
    pub does: String,
    /// The items that use it; empty when none does.
    pub items: String,
    /// The board's mark, the join, or made safe.
    pub to: String,
    /// What happens at its far end.
    pub far_end: &'static str,
    /// Whether nothing uses it from now on.
    pub unused: bool,
}

/// The cables of a job, in survey order.
#[must_use]
pub fn cables(job: &Job, plan: &Plan) -> Vec<CableView> {
    (0..job.cables.len()).filter_map(|c| cable(job, plan, c)).collect()
}

fn cable(job: &Job, plan: &Plan, at: usize) -> Option<CableView> {
    let cable = job.cables.get(at)?;
    let planned = plan.cables.get(at)?;
    let survey = cable.survey;
    let cores = planned.cores.iter().zip(&cable.cores);
    Some(CableView {
        cable: survey.cable.clone(),
        to: survey.to.clone().unwrap_or_else(|| "not said".into()),
        kind: cable.kind.does.clone().unwrap_or_else(|| cable.kind.id.clone()),
        length: length(plan.lengths.get(at).copied().flatten()),
        label: survey.label.clone().unwrap_or_else(|| "nothing seen".into()),
        ac: survey.ac.as_ref().map_or_else(|| "not read".into(), ToString::to_string),
        measured: survey.measured.iter().map(measured).collect(),
        items: items(job, plan, at),
        cores: cores.map(|(core, today)| row(job, plan, at, core, today)).collect(),
        notes: notes(job, &cable.cores),
    })
}

/// A length as text.
fn length(length: Option<CableLength>) -> String {
    let Some(length) = length else { return "not known".into() };
    let metres = |value| Metres::new(value).map_or_else(String::new, |m| m.to_string());
    let (low, high) = (metres(length.shortest), metres(length.longest));
    let text = if low == high { high } else { format!("{low} to {high}") };
    if length.worked { format!("{text}, worked from its measured loop") } else { text }
}

fn measured(measured: &Measured) -> String {
    let (one, two) = &measured.cores;
    let read = measured.ohms.as_ref().map_or_else(|| "open".into(), ToString::to_string);
    format!("{} and {}: {read}", CoreName::new(one).text(), CoreName::new(two).text())
}

fn row(job: &Job, plan: &Plan, cable: usize, core: &PlannedCore, today: &JobCore) -> CoreRow {
    CoreRow {
        core: CoreName::new(&core.colour),
        was: was(job, today),
        from: core.from.clone(),
        does: does(plan, cable, core),
        items: item_names(job, &core.items),
        to: destination(job, plan, cable, core),
        far_end: far_end(core, today),
        unused: core.to == To::Park,
    }
}

/// What a core did until today.
fn was(job: &Job, today: &JobCore) -> String {
    if let Some(known) = &today.function {
        let owner = today.owner.map(|o| format!(" of {o}")).unwrap_or_default();
        return format!("{}{owner}", function(known));
    }
    let owner = today.owner.map(|o| format!(" (core of {o})")).unwrap_or_default();
    match &today.on {
        CoreUse::Spare => "nothing".into(),
        CoreUse::Broken => "broken in the wall".into(),
        CoreUse::Mark(mark) => match job.panel.unit.terminal(mark).and_then(|t| t.does.as_ref()) {
            Some(does) => format!("by its screw: {does}{owner}"),
            None => format!("not known{owner}"),
        },
        CoreUse::Join(_) | CoreUse::Unknown => format!("not known{owner}"),
    }
}

/// What a core does from now on.
fn does(plan: &Plan, cable: usize, core: &PlannedCore) -> String {
    match &core.to {
        To::Leave => "not touched".into(),
        To::Park => "nothing".into(),
        _ if core.doubled => format!("{}, {}", function(&core.function), beside(plan, cable, core)),
        _ => function(&core.function),
    }
}

/// The core beside which a doubling one lies, in words.
pub(super) fn beside(plan: &Plan, cable: usize, core: &PlannedCore) -> String {
    let cores = plan.cables.get(cable).map_or(&[][..], |c| c.cores.as_slice());
    let first = cores.iter().find(|c| !c.doubled && c.function == core.function && c.to == core.to);
    first.map_or_else(|| "doubled".into(), |c| format!("doubles {}", CoreName::new(&c.colour).text()))
}

/// What happens at a core's far end.
pub(super) fn far_end(core: &PlannedCore, today: &JobCore) -> &'static str {
    match (&core.to, &today.on) {
        (To::Leave, _) => "leave",
        (To::Park, CoreUse::Spare) => "check it is insulated",
        (To::Park, CoreUse::Broken | CoreUse::Unknown) => "find, prove dead, insulate",
        (To::Park, _) => "lift, insulate",
        _ if core.kept => "stays",
        (_, CoreUse::Spare) => "CONNECT",
        _ if today.function.is_none() => "TRACE, then land",
        _ => "RE-LAND",
    }
}

/// The notes on the marks from which a cable's cores come, each mark once.
fn notes(job: &Job, cores: &[JobCore]) -> Vec<String> {
    let mut marks: Vec<&str> = Vec::new();
    for core in cores {
        if let CoreUse::Mark(mark) = &core.on
            && !marks.contains(&mark.as_str())
        {
            marks.push(mark);
        }
    }
    let of = |mark: &str| -> Vec<String> {
        on_mark(job, &job.panel.unit.id, mark).into_iter().map(|note| format!("{mark}: {note}")).collect()
    };
    marks.into_iter().flat_map(of).collect()
}

/// What hangs on a cable: what the plan serves there, then what goes or is not decided.
fn items(job: &Job, plan: &Plan, at: usize) -> Vec<ItemLine> {
    let served = plan.items.iter().filter(|p| p.cable == at).filter_map(|p| fitted(job, plan, p));
    let here = job.cables.get(at).map_or(&[][..], |c| c.survey.serves.as_slice());
    let planned = |name: &str| plan.items.iter().any(|p| item_name(job, p.item) == name);
    let others = here.iter().filter(|s| !planned(&s.item)).map(|s| other(job, s));
    served.chain(others).collect()
}

/// The line of an item that the plan serves.
fn fitted(job: &Job, plan: &Plan, planned: &PlannedItem) -> Option<ItemLine> {
    let item = job.items.get(planned.item)?;
    let device = item.device.does.as_deref().unwrap_or(&item.device.id);
    let state = if item.keep() { "kept" } else { "new" };
    let reach = item.served.map(reach).unwrap_or_default();
    Some(ItemLine {
        item: item.name().into(),
        what: format!("{state}: {device}{reach}"),
        wiring: method(planned.method, &item.device.tamper),
        at_device: at_device(job, planned).unwrap_or_else(|| "nothing to fit inside it".into()),
        spare: spare(job, plan, planned),
    })
}

/// The core that an item can fall back on, as text.
fn spare(job: &Job, plan: &Plan, planned: &PlannedItem) -> String {
    let core = planned.spare.and_then(|k| plan.cables.get(planned.cable)?.cores.get(k));
    core.map_or_else(|| "none left".into(), |core| core_of(job, planned.cable, &core.colour))
}

/// How a device is reached, as a tail.
fn reach(served: &Served) -> String {
    match &served.reach {
        None => String::new(),
        Some(Reach::None) => ", CAN'T BE REACHED".into(),
        Some(Reach::With(with)) => format!(", reached with: {with}"),
    }
}

/// The line of something served today that the plan does not serve.
pub(super) fn other(job: &Job, served: &Served) -> ItemLine {
    let removed = job.survey.remove.contains(&served.item);
    let in_fit = job.items.iter().any(|i| i.name() == served.item);
    let what = match (removed, in_fit) {
        (true, _) => "goes: taken away",
        (false, true) => "UNSERVED: see the plan",
        (false, false) => "NOT DECIDED: say whether it stays or goes",
    };
    let device = job.library.devices.get(&served.device).and_then(|d| d.does.clone());
    ItemLine {
        item: served.item.clone(),
        what: format!("{what}: {}{}", device.unwrap_or_else(|| served.device.clone()), reach(served)),
        wiring: String::new(),
        at_device: String::new(),
        spare: String::new(),
    }
}
