//! What the fuses are, and which one guards the mains, what is fed and the battery.

use super::{Gap, Kind, View};
use crate::model::Unit;

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    view.units().flat_map(|unit| [read(view, unit), guarding(view, unit)].concat()).collect()
}

/// Fuses whose caps nobody has read.
fn read(view: &View<'_>, unit: &Unit) -> Vec<Gap> {
    if unit.fuses.is_empty() && view.library.panels.contains_key(&unit.id) {
        return vec![view.gap(Kind::Fuse, &unit.id, "Which fuses it has")];
    }
    let open = unit.fuses.iter().filter_map(|fuse| {
        let what = match (fuse.rating.is_none(), fuse.speed.is_none()) {
            (true, true) => "rating and speed",
            (true, false) => "rating",
            (false, true) => "speed",
            (false, false) => return None,
        };
        Some(view.about(Kind::Fuse, &unit.id, &fuse.mark, format!("The {what} of {}", fuse.mark)))
    });
    open.collect()
}

/// Things that a fuse should guard, and nobody has said which.
fn guarding(view: &View<'_>, unit: &Unit) -> Vec<Gap> {
    let mut gaps = Vec::new();
    if unit.mains.get().is_some_and(|mains| mains.fuse.is_none()) {
        gaps.push(view.gap(Kind::Fuse, &unit.id, "Which fuse guards the mains"));
    }
    let Some(power) = unit.power.get() else { return gaps };
    if power.fuse.is_none() {
        gaps.push(view.gap(Kind::Fuse, &unit.id, "Which fuse guards what it feeds"));
    }
    if power.battery.get().is_some_and(|battery| battery.fuse.is_none()) {
        gaps.push(view.gap(Kind::Fuse, &unit.id, "Which fuse guards the battery"));
    }
    gaps
}
