//! Which screws carry mains: on panels, and on any other card that can feed itself.

use super::{Gap, Kind, View};

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    let is_fed = |id: &str| view.library.panels.contains_key(id) || view.library.supplies.contains_key(id);
    let units = view.units().filter(|unit| is_fed(&unit.id) || unit.power.get().is_some());
    let open = units.filter(|unit| unit.mains.is_not_known());
    open.map(|unit| view.gap(Kind::Mains, &unit.id, "Which screws are mains live, neutral and earth")).collect()
}
