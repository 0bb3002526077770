//! Puts what sites measured beside the facts that they measured.

use crate::model::{Evidence, Library, Note, Unit};

/// Counts the agreements and disagreements of all notes, fact by fact.
pub(super) fn weigh(library: &mut Library) {
    let Library { panels, boards, supplies, notes, .. } = library;
    let units = panels.values_mut().map(|panel| &mut panel.unit);
    let units = units.chain(boards.values_mut().map(|board| &mut board.unit));
    for unit in units.chain(supplies.values_mut().map(|supply| &mut supply.unit)) {
        if let Some(notes) = notes.get(&unit.id) {
            of_unit(unit, notes);
        }
    }
}

fn of_unit(unit: &mut Unit, notes: &[Note]) {
    for terminal in &mut unit.terminals {
        terminal.evidence = Evidence::of(notes, &terminal.mark);
    }
    for fuse in &mut unit.fuses {
        fuse.evidence = Evidence::of(notes, &fuse.mark);
    }
    for link in &mut unit.links {
        link.evidence = Evidence::of(notes, &link.mark);
    }
}
