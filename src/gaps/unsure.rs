//! Facts that are known from a label, from hearsay or from nothing, and that surveys rest on all the same.

use super::{Gap, Kind, View};
use crate::model::{Cite, Evidence, Standing, Unit};

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    view.units().flat_map(|unit| of_unit(view, unit)).collect()
}

fn of_unit(view: &View<'_>, unit: &Unit) -> Vec<Gap> {
    let terminals = unit.terminals.iter().map(|t| (&t.mark, t.does.as_ref(), &t.cite, t.evidence));
    let fuses = unit.fuses.iter().map(|f| (&f.mark, f.guards.as_ref(), &f.cite, f.evidence));
    let links = unit.links.iter().map(|l| (&l.mark, Some(&l.does), &l.cite, l.evidence));
    let unsure = terminals.chain(fuses).chain(links).filter_map(|(mark, does, cite, evidence)| {
        let packs = view.relied.mark(&unit.id, mark);
        let source = source(cite, evidence).filter(|_| packs > 0)?;
        let does = does.map(|does| format!(": {does}")).unwrap_or_default();
        let says = format!("{mark}{does} ({source})");
        Some(Gap { packs, ..view.about(Kind::Unsure, &unit.id, mark, says) })
    });
    unsure.collect()
}

/// Where an unsure fact is from; `None` when it is sure.
fn source(cite: &[Cite], evidence: Evidence) -> Option<&'static str> {
    match Standing::at_sites(cite, evidence) {
        Standing::Unverified => Some("no source"),
        Standing::LabelOnly => Some("label or hearsay only"),
        Standing::Confirmed | Standing::Measured | Standing::Manual => None,
    }
}
