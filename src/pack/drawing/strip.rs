//! The screws of a unit and the joins beside it, each found by its name.

use super::{Part, PartKind, Screw, ScrewKind, Strip};
use crate::model::Unit;

impl Strip {
    /// The screws of a unit, in board order.
    pub(super) fn of(unit: &Unit) -> Self {
        let screws = unit.terminals.iter().map(|t| Screw { mark: t.mark.clone(), kind: ScrewKind::Screw });
        Self { name: unit.name(), screws: screws.collect(), parts: Vec::new() }
    }

    /// The screw with this mark; one that the card lacks is added at the end.
    pub(super) fn screw(&mut self, mark: &str) -> usize {
        self.place(mark, ScrewKind::NotOnCard, |kind| kind != ScrewKind::Join)
    }

    /// The join of this name, added at the end when it is new.
    pub(super) fn join(&mut self, name: &str) -> usize {
        self.place(name, ScrewKind::Join, |kind| kind == ScrewKind::Join)
    }

    /// Adds a screw of a device and says where it is.
    pub(super) fn add(&mut self, mark: impl Into<String>, kind: ScrewKind) -> usize {
        self.screws.push(Screw { mark: mark.into(), kind });
        self.screws.len() - 1
    }

    /// Adds what is between two screws.
    pub(super) fn part(
        &mut self,
        from: usize,
        to: Option<usize>,
        kind: PartKind,
        label: impl Into<String>,
        inside: bool,
    ) {
        let part = Part { from, to, kind, label: label.into(), inside };
        if !self.parts.contains(&part) {
            self.parts.push(part);
        }
    }

    fn place(&mut self, mark: &str, kind: ScrewKind, fits: impl Fn(ScrewKind) -> bool) -> usize {
        let found = self.screws.iter().position(|s| s.mark == mark && fits(s.kind));
        found.unwrap_or_else(|| self.add(mark, kind))
    }
}
