//! The plan as pack.json gives it, and the few numbers of it that pages show.

use crate::choose::Shortage;
use crate::judge::Judgement;
use crate::land::{Plan, PlannedCore, PlannedItem, PlannedTrigger};
use crate::model::{Job, Priority};
use crate::pack::names::{cable_name, item_name, item_names};
use serde::Serialize;

/// The plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlanView {
    /// The served items.
    pub items: Vec<PlanItem>,
    /// Every core of every cable.
    pub cables: Vec<PlanCable>,
    /// What is left without a wiring.
    pub unserved: Vec<UnservedRow>,
    /// The seven numbers.
    pub cost: CostView,
    /// The tamper loop.
    pub tamper_loop: Option<TamperLoop>,
    /// What fires what.
    pub triggers: Vec<PlanTrigger>,
}

/// A served item.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanItem {
    /// Its name.
    pub item: String,
    /// Its device card.
    pub device: String,
    /// Its cable.
    pub cable: String,
    /// The method.
    pub method: &'static str,
    /// The input of its alarm loop.
    pub input: Option<String>,
    /// Its cores.
    pub cores: Vec<PlanCore>,
    /// The colour of the spare core to fall back on.
    pub spare: Option<String>,
}

/// A core.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanCore {
    /// Its colour.
    pub colour: String,
    /// What it is for.
    pub function: String,
    /// The panel's mark, or the survey's word.
    pub from: String,
    /// The board's mark, a join, or park.
    pub to: String,
    /// The items that use it.
    pub items: Vec<String>,
}

/// A cable.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanCable {
    /// Its name.
    pub cable: String,
    /// Its cores, in cable order.
    pub cores: Vec<PlanCore>,
}

/// What is left without a wiring.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct UnservedRow {
    /// Its name.
    pub item: String,
    /// `must` or `want`.
    pub priority: &'static str,
    /// Why, and what would serve it.
    pub reason: String,
}

/// The seven numbers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[expect(missing_docs, reason = "the names are those of pack.json")]
pub struct CostView {
    pub unserved_must: u32,
    pub unserved_want: u32,
    pub unmonitored: u32,
    pub shared: u32,
    pub opened: u32,
    pub moved: u32,
    pub used: u32,
}

/// The tamper loop.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TamperLoop {
    /// The board's input.
    pub input: String,
    /// Its items, in loop order.
    pub items: Vec<String>,
}

/// A trigger.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanTrigger {
    /// The item.
    pub item: String,
    /// What is fired.
    pub trigger: String,
    /// How; `None`: not known.
    pub fires: Option<&'static str>,
    /// The board's output.
    pub output: String,
    /// The contact.
    pub contact: &'static str,
    /// What a relay's common is wired to.
    pub common: Option<&'static str>,
}

/// The plan of a job.
#[must_use]
pub fn plan(job: &Job, plan: &Plan, judgement: &Judgement) -> PlanView {
    let cost = &plan.choice.cost;
    PlanView {
        items: plan.items.iter().filter_map(|p| item(job, plan, p)).collect(),
        cables: plan
            .cables
            .iter()
            .enumerate()
            .map(|(c, cable)| PlanCable {
                cable: cable_name(job, c).into(),
                cores: cable.cores.iter().map(|k| core(job, k)).collect(),
            })
            .collect(),
        unserved: unserved(job, plan, judgement),
        cost: CostView {
            unserved_must: cost.unserved_must,
            unserved_want: cost.unserved_want,
            unmonitored: cost.unmonitored,
            shared: cost.shared,
            opened: cost.opened,
            moved: cost.moved,
            used: cost.used,
        },
        tamper_loop: plan.tamper_loop().map(|l| TamperLoop {
            input: input_name(job, l.input),
            items: l.items.iter().map(|i| item_name(job, *i).to_string()).collect(),
        }),
        triggers: plan.triggers.iter().filter_map(|t| trigger(job, t)).collect(),
    }
}

fn input_name(job: &Job, input: usize) -> String {
    job.board.inputs.get(input).map_or_else(String::new, |i| i.input.clone())
}

fn item(job: &Job, plan: &Plan, planned: &PlannedItem) -> Option<PlanItem> {
    let item = job.items.get(planned.item)?;
    let cores = &plan.cables.get(planned.cable)?.cores;
    Some(PlanItem {
        item: item.name().into(),
        device: item.device.id.clone(),
        cable: cable_name(job, planned.cable).into(),
        method: planned.method.word(),
        input: planned.input.map(|i| input_name(job, i)),
        cores: planned.cores.iter().filter_map(|k| cores.get(*k)).map(|k| core(job, k)).collect(),
        spare: planned.spare.and_then(|k| cores.get(k)).map(|k| k.colour.clone()),
    })
}

fn core(job: &Job, core: &PlannedCore) -> PlanCore {
    PlanCore {
        colour: core.colour.clone(),
        function: core.function.to_string(),
        from: core.from.clone(),
        to: core.to.to_string(),
        items: core.items.iter().map(|i| item_name(job, *i).to_string()).collect(),
    }
}

fn trigger(job: &Job, planned: &PlannedTrigger) -> Option<PlanTrigger> {
    let device = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
    Some(PlanTrigger {
        item: item_name(job, planned.item).into(),
        trigger: device.trigger.clone(),
        fires: device.fires.map(crate::model::Fires::word),
        output: job.board.outputs.get(planned.output)?.output.clone(),
        contact: planned.contact,
        common: planned.common.as_ref().map(|(_, positive)| if *positive { "positive" } else { "negative" }),
    })
}

/// What is left without a wiring: in the words of its finding, which says what would serve it.
fn unserved(job: &Job, plan: &Plan, judgement: &Judgement) -> Vec<UnservedRow> {
    let left = plan.choice.items.iter().enumerate().filter_map(|(at, chosen)| Some((at, chosen.as_ref().err()?)));
    left.filter_map(|(at, shortage)| {
        let item = job.items.get(at)?;
        let finding = judgement.findings.iter().find(|f| f.code == "unserved" && f.about == item.name());
        Some(UnservedRow {
            item: item_names(job, &[at]),
            priority: if item.fit.priority == Priority::Must { "must" } else { "want" },
            reason: finding.map_or_else(|| reason(shortage), |f| f.says.clone()),
        })
    })
    .collect()
}

/// Why an item is left, and what would serve it.
fn reason(shortage: &Shortage) -> String {
    match shortage {
        Shortage::NoCable => "No cable goes to its place; a new cable would serve it.".into(),
        Shortage::NotPlanned(reason) => reason.clone(),
        Shortage::Cores { short, needs } => {
            format!("Its cable is {short} usable cores short; a new cable of {needs} cores would serve it.")
        }
        Shortage::Inputs => "No input of the wiring that it needs is left; an expander would serve it.".into(),
        Shortage::Outputs { trigger, fires } => {
            format!("No output is left that fires the {trigger} by {}; a relay would serve it.", fires.word())
        }
    }
}
