//! The device card.

use super::super::keys::words;
use super::super::parse;
use super::super::sheet::Sheet;
use super::names::Names;
use super::{cite, look};
use crate::model::{Contact, Device, DeviceSupply, DeviceTrigger};
use crate::source::Node;
use crate::units::Ohms;

/// A device.
pub(crate) fn device(sheet: &mut Sheet<'_>, root: &Node) -> Device {
    cite::check(sheet, root);
    Names::of_rows(sheet, look::rows(root, "triggers"), "trigger", "trigger of this card");
    Device {
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
        triggers: look::rows(root, "triggers").map(trigger).collect(),
        volts: look::window(root, "volts"),
        self_activating: look::flag(root, "self_activating"),
        reconnect: look::word(root, "reconnect", &words::RECONNECT),
        data: root.get("data").and_then(parse::count).map_or(0, |n| n as usize),
        bus: look::text(root, "bus"),
        cautions: look::texts(root, "cautions"),
    }
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

fn trigger(row: &Node) -> DeviceTrigger {
    let fires = look::word(row, "fires", &words::FIRES);
    DeviceTrigger {
        trigger: look::name(row, "trigger"),
        fires,
        current: look::quantity(row, "current"),
        pull_up: look::quantity(row, "pull_up"),
    }
}
