//! A device.

use super::{head, line, or_blank, or_not_known, section};
use crate::cli::table::table;
use crate::model::{Contact, ContactKind, Device, DeviceClass, Fact, Fires, Reconnect, Returns};

/// Every section of a device.
pub(super) fn sections(device: &Device) -> Vec<String> {
    let words: Vec<&str> = [&device.maker, &device.model].into_iter().flatten().map(String::as_str).collect();
    let name = if words.is_empty() { or_not_known(device.does.as_ref()) } else { words.join(" ") };
    let triggers: Vec<Vec<String>> = device
        .triggers
        .iter()
        .map(|t| {
            let fires = or_not_known(t.fires.map(Fires::word));
            vec![t.trigger.clone(), fires, or_not_known(t.current), or_blank(t.pull_up)]
        })
        .collect();
    vec![
        head(&name, &format!("device, {}", device.id), &device.also, &[], &device.cautions),
        section("What it is", &facts(device)),
        section("Triggers", &table(&["trigger", "fires", "current", "wants a resistor to positive"], &triggers)),
    ]
}

fn facts(device: &Device) -> String {
    let mut text = line("Does", &or_not_known(device.does.as_ref()));
    text.push_str(&line("Class", &or_not_known(device.class.map(DeviceClass::word))));
    text.push_str(&line("Supply", &supply(device)));
    text.push_str(&line("Alarm contact", &contact(&device.alarm)));
    text.push_str(&line("Tamper contact", &tamper(device)));
    if let Some(volts) = device.volts {
        text.push_str(&line("Volts at its two wires", &volts.to_string()));
    }
    if device.class == Some(DeviceClass::ExternalSounder) || device.self_activating.is_some() {
        text.push_str(&line("Own battery, sounds when hold-off is lost", self_activating(device)));
        text.push_str(&line("Reconnect", reconnect(device.reconnect)));
    }
    if device.data > 0 {
        text.push_str(&line("Bus cores", &device.data.to_string()));
        text.push_str(&line("Bus", &or_not_known(device.bus.as_ref())));
    }
    text
}

fn supply(device: &Device) -> String {
    match &device.supply {
        Fact::Is(supply) => {
            let volts = or_not_known(supply.volts);
            format!("{volts}; standby {}; alarm {}", or_not_known(supply.standby), or_not_known(supply.alarm))
        }
        Fact::Absent => "needs none".to_string(),
        Fact::NotKnown => "not known".to_string(),
    }
}

/// A contact in words.
fn contact(contact: &Fact<Contact>) -> String {
    let Some(known) = contact.get() else {
        return if contact.is_absent() { "none" } else { "not known" }.to_string();
    };
    let kind = match known.contact {
        Some(ContactKind::NormallyClosed) => "normally closed",
        Some(ContactKind::NormallyOpen) => "normally open",
        None => "not known at rest",
    };
    let series = if known.series.get() > 0.0 { format!(", {} in series", known.series) } else { String::new() };
    format!("{kind}{series}")
}

/// The tamper contact, with what it returns to.
fn tamper(device: &Device) -> String {
    let text = contact(&device.tamper);
    if device.tamper.get().is_none() {
        return text;
    }
    format!("{text}, returns: {}", or_not_known(device.tamper_returns().map(Returns::word)))
}

fn self_activating(device: &Device) -> &'static str {
    match device.self_activating {
        Some(true) => "yes",
        Some(false) => "no",
        None => "not known: take it as yes",
    }
}

fn reconnect(order: Option<Reconnect>) -> &'static str {
    match order {
        Some(Reconnect::HoldOffFirst) => "hold-off first, then its own battery",
        Some(Reconnect::BatteryFirst) => "its own battery first, then hold-off",
        None => "order not known: hold-off first",
    }
}
