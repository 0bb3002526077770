//! What must be wired between the board's own terminals.

use super::names::item_name;
use super::settings::unused_inputs;
use crate::land::{Plan, PlannedTrigger};
use crate::model::{DeviceTrigger, Job, Output};
use serde::Serialize;

/// A wire, link or resistor between two of the board's terminals.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LinkRow {
    /// What to fit.
    pub fit: String,
    /// From this mark.
    pub from: String,
    /// To this mark.
    pub to: String,
    /// The value of the resistor, as a drawing says it; `None`: it is a wire.
    #[serde(skip)]
    pub value: Option<String>,
    /// Why.
    pub why: String,
}

/// What must be wired between the board's own terminals: relay commons, pull-ups, what unused inputs need.
pub(super) fn links(job: &Job, plan: &Plan) -> Vec<LinkRow> {
    let commons = plan.triggers.iter().filter_map(|t| common_link(job, t)).collect();
    [each_once(commons), pull_ups(job, plan), unused_inputs(job, plan)].concat()
}

/// The pull-up resistors to fit, each once.
#[must_use]
pub fn pull_ups(job: &Job, plan: &Plan) -> Vec<LinkRow> {
    each_once(plan.triggers.iter().filter_map(|t| pull_up_link(job, plan, t)).collect())
}

/// The rows between different pairs of marks.
fn each_once(rows: Vec<LinkRow>) -> Vec<LinkRow> {
    let mut kept: Vec<LinkRow> = Vec::new();
    for row in rows {
        if !kept.iter().any(|k| (&k.from, &k.to, &k.fit) == (&row.from, &row.to, &row.fit)) {
            kept.push(row);
        }
    }
    kept
}

/// The wire from a relay's common to the supply.
fn common_link(job: &Job, planned: &PlannedTrigger) -> Option<LinkRow> {
    let (supply, _) = planned.common.as_ref()?;
    let output = job.board.outputs.get(planned.output)?;
    let crate::model::OutputKind::Relay { common, .. } = &output.kind else { return None };
    Some(LinkRow {
        fit: "wire".into(),
        from: common.clone(),
        to: supply.clone(),
        value: None,
        why: format!("common of relay {}", output.output),
    })
}

/// The pull-up resistor of a trigger on an output that has none.
fn pull_up_link(job: &Job, plan: &Plan, planned: &PlannedTrigger) -> Option<LinkRow> {
    let (device, output) = sides(job, planned)?;
    let wants = device.pull_up.filter(|_| output.pull_up.get().is_none())?;
    let pair = plan.pair_of(planned.item)?;
    let supply = job.board.supplies.get(pair.supply)?;
    Some(LinkRow {
        fit: format!("{wants} {} resistor", super::parts::watts(wants)),
        from: planned.terminal.clone(),
        to: supply.positive.clone(),
        value: Some(format!("{wants} {}", super::parts::watts(wants))),
        why: format!("{} watches its {} wire", item_name(job, planned.item), device.trigger),
    })
}

/// The device's side of a planned trigger, and the board's.
pub(super) fn sides<'a>(job: &'a Job, planned: &PlannedTrigger) -> Option<(&'a DeviceTrigger, &'a Output)> {
    let device = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
    Some((device, job.board.outputs.get(planned.output)?))
}
