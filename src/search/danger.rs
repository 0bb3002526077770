//! What can hurt someone at a terminal. The usual cautions (common practice); local codes and licensed practice
//! come first.

use crate::model::{Group, Panel, Terminal, Unit};

const MAINS: &str = "mains voltage: switch off, lock off and prove dead first; local codes and licensed practice \
                     come before this";
const BATTERY: &str = "a battery can't be switched off: insulated tools, no metal jewellery, cover its terminals";
const HOLD_OFF: &str = "losing it sounds a self-activating sounder, 100 dB and more at head height";
const SIREN: &str = "can sound the sounder, 100 dB and more: ears protected, nobody at the sounder";
const STROBE: &str = "a xenon strobe holds high voltage after switching off";

/// The dangers of touching a terminal, worst first; empty when none is known.
pub(super) fn of_terminal(unit: &Unit, panel: Option<&Panel>, terminal: &Terminal) -> Vec<&'static str> {
    let mut dangers = Vec::new();
    if is_mains(unit, &terminal.mark) || terminal.group == Some(Group::Mains) {
        dangers.push(MAINS);
    }
    if is_battery(unit, &terminal.mark) || terminal.group == Some(Group::Battery) {
        dangers.push(BATTERY);
    }
    dangers.extend(of_siren(panel, &terminal.mark));
    match terminal.group {
        Some(Group::Siren | Group::Speaker) if dangers.is_empty() => dangers.push(SIREN),
        Some(Group::Strobe) if !dangers.contains(&STROBE) => dangers.push(STROBE),
        _ => {}
    }
    dangers
}

/// The dangers of a mark of the siren wiring.
pub(super) fn of_siren(panel: Option<&Panel>, mark: &str) -> Vec<&'static str> {
    let Some(siren) = panel.and_then(|p| p.siren.get()) else { return Vec::new() };
    let mut dangers = Vec::new();
    let is_supply = |m: Option<&String>| m.is_some_and(|m| m == mark);
    if is_supply(siren.hold_off.get()) || is_supply(siren.negative.get()) {
        dangers.push(HOLD_OFF);
    }
    for trigger in siren.triggers.iter().filter(|t| t.terminal == mark) {
        dangers.push(if trigger.trigger == "strobe" { STROBE } else { SIREN });
    }
    dangers
}

/// The dangers of a fuse.
pub(super) fn of_fuse(unit: &Unit, panel: Option<&Panel>, mark: &str) -> Vec<&'static str> {
    let is_mains_fuse = unit.mains.get().is_some_and(|m| m.fuse.as_deref() == Some(mark));
    let battery = unit.power.get().and_then(|p| p.battery.get());
    let is_battery_fuse = battery.is_some_and(|b| b.fuse.as_deref() == Some(mark));
    let mut dangers = Vec::new();
    if is_mains_fuse {
        dangers.push(MAINS);
    }
    if is_battery_fuse {
        dangers.push(BATTERY);
    }
    let hold_off = panel.and_then(|p| p.siren.get()).and_then(|s| s.hold_off.get());
    let guards_hold_off = hold_off.and_then(|hold_off| unit.terminal(hold_off)?.fuse.as_deref()) == Some(mark);
    if guards_hold_off {
        dangers.push(HOLD_OFF);
    }
    dangers
}

fn is_mains(unit: &Unit, mark: &str) -> bool {
    unit.mains.get().is_some_and(|m| m.terminals.iter().any(|t| t == mark))
}

fn is_battery(unit: &Unit, mark: &str) -> bool {
    let battery = unit.power.get().and_then(|p| p.battery.get());
    battery.is_some_and(|b| b.terminals.iter().any(|t| t == mark))
}
