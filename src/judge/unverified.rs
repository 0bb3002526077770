//! `unverified`: facts of a card that cite no source. The pack prints them so; here they are counted by card.

use super::case::Case;
use super::types::Finding;
use crate::model::Unit;
use crate::wording::listed;

const CODE: &str = "unverified";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut units: Vec<&Unit> = vec![&case.job.panel.unit, &case.job.board.unit];
    if let Some(source) = &case.job.source {
        units.push(source.unit);
    }
    units.sort_by(|a, b| a.id.cmp(&b.id));
    units.dedup_by(|a, b| a.id == b.id);
    units.into_iter().filter_map(of_unit).collect()
}

fn of_unit(unit: &Unit) -> Option<Finding> {
    let terminals = unit.terminals.iter().filter(|t| t.cite.is_empty()).map(|t| t.mark.as_str());
    let fuses = unit.fuses.iter().filter(|f| f.cite.is_empty()).map(|f| f.mark.as_str());
    let links = unit.links.iter().filter(|l| l.cite.is_empty()).map(|l| l.mark.as_str());
    let marks: Vec<&str> = terminals.chain(fuses).chain(links).collect();
    if marks.is_empty() {
        return None;
    }
    let says = format!(
        "What the card of {} says of {} cites no source. Measure or look it up, and put the source on the card.",
        unit.name(),
        listed(&marks)
    );
    Some(Finding::note(CODE, &unit.id, says))
}
