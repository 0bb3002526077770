//! A device: its card, its cautions, its notes.

use super::{Owner, names, sentences, side};
use crate::model::{Card, Device, DeviceTrigger, Library};
use crate::search::entry::{Entry, Kind};

/// Every fact of a device.
pub(super) fn entries(library: &Library, device: &Device) -> Vec<Entry> {
    let card = Card::Device(device);
    let owner = Owner::new(card);
    let mut entry = owner.entry(Kind::Card, None, sentences(parts(device)));
    entry.hit.title = format!("{}, device", owner.name);
    entry.names = names::all(card);
    entry.names.extend(device.does.clone());
    entry.hit.side = side::of_device(device);
    let mut entries = vec![entry];
    entries.extend(owner.cautions(&device.cautions));
    entries.extend(owner.notes(library));
    entries
}

fn parts(device: &Device) -> Vec<String> {
    let mut parts = vec![device.does.clone().unwrap_or_else(|| "What it does is not known".to_string())];
    parts.extend(device.class.map(|class| format!("Class {}", class.word())));
    parts.push(supply(device));
    parts.extend(device.triggers.iter().map(trigger));
    match device.self_activating {
        Some(true) => parts.push("Self-activating: sounds when hold-off is lost".to_string()),
        Some(false) => parts.push("Not self-activating".to_string()),
        None if device.may_self_activate() => {
            parts.push("Whether it is self-activating is not known: taken as self-activating".to_string());
        }
        None => {}
    }
    if !device.also.is_empty() {
        parts.push(format!("Also {}", device.also.join(", ")));
    }
    parts
}

fn supply(device: &Device) -> String {
    let Some(supply) = device.supply.get() else {
        return if device.supply.is_absent() { "Needs no supply" } else { "Its supply is not known" }.to_string();
    };
    let volts = supply.volts.map_or_else(|| "volts not known".to_string(), |v| v.to_string());
    let standby = supply.standby.map_or_else(|| "standby not known".to_string(), |a| format!("{a} standby"));
    let alarm = supply.alarm.map_or_else(|| "alarm not known".to_string(), |a| format!("{a} alarm"));
    format!("Supply {volts}, {standby}, {alarm}")
}

fn trigger(trigger: &DeviceTrigger) -> String {
    let fires =
        trigger.fires.map_or_else(|| "how it fires is not known".to_string(), |f| format!("fires {}", f.word()));
    let current = trigger.current.map_or_else(|| "current not known".to_string(), |a| a.to_string());
    format!("Trigger {}: {fires}, {current}", trigger.trigger)
}
