//! What is fitted between screws: relay commons and contacts, pull-ups, links and resistors of unused inputs, what keeps
//! the old panel quiet.

use super::{PartKind, Strip};
use crate::land::Plan;
use crate::model::{Job, OutputKind};
use crate::pack::links::links;
use crate::pack::quiet::{Closer, quiet};

/// What is fitted on the new board, and the relay contacts inside it that fire something.
pub(super) fn of_board(job: &Job, plan: &Plan, strip: &mut Strip) {
    for row in links(job, plan) {
        let (from, to) = (strip.screw(&row.from), strip.screw(&row.to));
        match row.value {
            Some(value) => strip.part(from, Some(to), PartKind::Resistor, value, false),
            None => strip.part(from, Some(to), PartKind::Link, "", false),
        }
    }
    for trigger in &plan.triggers {
        let Some(output) = job.board.outputs.get(trigger.output) else { continue };
        let OutputKind::Relay { common, .. } = &output.kind else { continue };
        let kind = if trigger.contact == "normally-open" { PartKind::Make } else { PartKind::Break };
        let (from, to) = (strip.screw(common), strip.screw(&trigger.terminal));
        strip.part(from, Some(to), kind, output.output.clone(), true);
    }
}

/// What keeps the old panel quiet when it stays on.
pub(super) fn of_panel(job: &Job, strip: &mut Strip) {
    for row in quiet(job).into_iter().flat_map(|view| view.links) {
        let from = strip.screw(&row.from);
        let to = if row.to.is_empty() { None } else { Some(strip.screw(&row.to)) };
        let (kind, label) = match row.closer {
            Closer::Link => (PartKind::Link, String::new()),
            Closer::Resistor(Some(value)) => (PartKind::Resistor, value.to_string()),
            Closer::Resistor(None) => (PartKind::Resistor, "?".into()),
            Closer::NotKnown => (PartKind::NotKnown, "?".into()),
        };
        strip.part(from, to, kind, label, false);
    }
}
