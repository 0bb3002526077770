//! The device card.

use super::super::keys::words;
use super::super::parse;
use super::super::sheet::Sheet;
use super::names::Names;
use super::{cite, look};
use crate::model::{Contact, Device, DeviceSupply, DeviceTrigger, Fact, Returns};
use crate::source::Node;
use crate::units::Ohms;

/// A device.
pub(crate) fn device(sheet: &mut Sheet<'_>, root: &Node) -> Device {
    cite::check(sheet, root);
    Names::of_rows(sheet, look::rows(root, "triggers"), "trigger", "trigger of this card");
    let device = Device {
        id: look::name(root, "id"),
        maker: look::text(root, "maker"),
        model: look::text(root, "model"),
        also: look::texts(root, "also"),
        sources: cite::sources(root),
        does: look::text(root, "does"),
        class: look::word(root, "class", &words::CLASS),
        supply: look::fact(root, "supply", |block| block.entries().map(|_| supply(block))),
        alarm: look::fact(root, "alarm", contact),
        tamper: look::fact(root, "tamper", contact),
        triggers: look::rows(root, "triggers").map(|row| trigger(sheet, row)).collect(),
        volts: look::window(root, "volts"),
        self_activating: look::flag(root, "self_activating"),
        reconnect: look::word(root, "reconnect", &words::RECONNECT),
        data: root.get("data").and_then(parse::count).map_or(0, |n| n as usize),
        bus: look::text(root, "bus"),
        cautions: look::texts(root, "cautions"),
    };
    tamper_at_negative(sheet, root, &device);
    volts_of_two_wires(sheet, root, &device);
    device
}

fn supply(block: &Node) -> DeviceSupply {
    let standby = look::quantity(block, "standby");
    DeviceSupply { volts: look::window(block, "volts"), standby, alarm: look::quantity(block, "alarm").or(standby) }
}

fn contact(block: &Node) -> Option<Contact> {
    block.entries()?;
    Some(Contact {
        contact: look::word(block, "contact", &words::CONTACT),
        series: look::quantity(block, "series").or_else(|| Ohms::new(0.0))?,
        returns: look::word(block, "returns", &words::RETURNS),
    })
}

fn trigger(sheet: &mut Sheet<'_>, row: &Node) -> DeviceTrigger {
    let fires = look::word(row, "fires", &words::FIRES);
    if let Some(entry) = row.entry("pull_up")
        && entry.value.text() != Some("none")
        && fires.is_some_and(|fires| !fires.is_negative())
    {
        let help = "leave `pull_up` out: only a trigger fired by its negative watches for a positive";
        sheet.fault(entry.key.span, "`pull_up` goes with negative triggers only", help);
    }
    DeviceTrigger {
        trigger: look::name(row, "trigger"),
        fires,
        current: look::quantity(row, "current"),
        pull_up: look::quantity(row, "pull_up"),
    }
}

/// A tamper can't come back over a supply negative that is not there.
fn tamper_at_negative(sheet: &mut Sheet<'_>, root: &Node, device: &Device) {
    let negative = device.tamper.get().is_some_and(|tamper| tamper.returns == Some(Returns::Negative));
    if let Some(node) = root.get("tamper").and_then(|block| block.get("returns"))
        && negative
        && !matches!(device.supply, Fact::Is(_))
        && root.get("supply").is_none_or(|node| node.entries().is_none())
    {
        let help = "give the device its `supply`, or write `returns: pair`";
        sheet.fault(node.span, "this device has no supply, so its tamper can't return to a supply negative", help);
    }
}

/// The window at two wires is for a sounder without a supply.
fn volts_of_two_wires(sheet: &mut Sheet<'_>, root: &Node, device: &Device) {
    if let Some(entry) = root.entry("volts")
        && device.supply.get().is_some()
    {
        let help = "put it into `supply`: `supply: { volts: [9 V, 16 V] }`";
        sheet.fault(entry.key.span, "`volts` here is for a two-wire sounder, which has `supply: none`", help);
    }
}
