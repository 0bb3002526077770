//! What device cards and surveys leave out about an item.

use super::super::case::Case;
use super::blank::{Blank, CARD, PLANNED, SUPPLY};
use crate::model::{DeviceClass, Item, Wiring};

const TAMPER: &str = "Open the sounder and see whether its tamper comes back on a core of its own or to a supply.";
const RESISTORS: &str = "Open the device and look for resistors, or measure its pair at rest and in alarm.";

pub(super) fn blanks(case: &Case<'_>) -> Vec<Blank> {
    case.job.items.iter().flat_map(|item| of_item(case, item)).collect()
}

fn of_item(case: &Case<'_>, item: &Item<'_>) -> Vec<Blank> {
    let device = item.device;
    let name = item.name();
    let left_out = |missing: bool, what: &str| missing.then(|| Blank::warning(name, what, PLANNED));
    [
        left_out(device.alarm.is_not_known(), "whether it has an alarm contact"),
        left_out(device.tamper.is_not_known(), "whether it has a tamper contact"),
        left_out(device.supply.is_not_known(), SUPPLY),
        tamper_returns(item),
        resistors(case, item),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// An external sounder's tamper that comes back nobody knows where.
fn tamper_returns(item: &Item<'_>) -> Option<Blank> {
    let device = item.device;
    let unknown = device.class == Some(DeviceClass::ExternalSounder)
        && device.tamper.get().is_some()
        && device.tamper_returns().is_none();
    unknown.then(|| Blank::blocker(item.name(), "what its tamper returns to", TAMPER))
}

/// A kept item whose old zone had end-of-line resistors, or may have had, and nobody said where they are.
fn resistors(case: &Case<'_>, item: &Item<'_>) -> Option<Blank> {
    let served = item.served.filter(|s| s.resistors.is_not_known())?;
    let zone = case.job.panel.zones.get(case.job.zone_of(item)?)?;
    let closed = zone.pair.wiring == Some(Wiring::ClosedLoop);
    (!closed).then(|| Blank::blocker(&served.item, "its old end-of-line resistors", RESISTORS))
}

/// The blanks of a device's window of volts.
pub(super) fn window(item: &Item<'_>) -> Option<Blank> {
    let unknown = crate::land::volts::needs(item.device).is_none();
    unknown.then(|| Blank::blocker(item.name(), "what volts it needs", CARD))
}
