//! How sounders are wired and fired, and what holds them silent: on panels, and on the sounders' own cards.

use super::{Gap, Kind, View};
use crate::model::{Device, DeviceClass, Fact, Panel, Siren};

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    let panels = view.library.panels.values().flat_map(|panel| of_panel(view, panel));
    panels.chain(view.library.devices.values().flat_map(|device| of_device(view, device))).collect()
}

fn of_panel(view: &View<'_>, panel: &Panel) -> Vec<Gap> {
    let id = &panel.unit.id;
    match &panel.siren {
        Fact::NotKnown => vec![view.gap(Kind::Siren, id, "How the external sounder and its strobe are wired")],
        Fact::Absent => Vec::new(),
        Fact::Is(siren) => wired(view, id, siren),
    }
}

fn wired(view: &View<'_>, id: &str, siren: &Siren) -> Vec<Gap> {
    let mut gaps = Vec::new();
    if siren.triggers.is_empty() {
        gaps.push(view.gap(Kind::Siren, id, "Which screws fire the sounder and the strobe"));
    }
    for trigger in siren.triggers.iter().filter(|trigger| trigger.fires.is_none()) {
        let says = format!("How {} fires the {}", trigger.terminal, trigger.trigger);
        gaps.push(view.about(Kind::Siren, id, &trigger.terminal, says));
    }
    if siren.negative.is_not_known() {
        gaps.push(view.gap(Kind::Siren, id, "Which screw is the external sounder's negative"));
    }
    match &siren.tamper {
        Fact::NotKnown => {
            gaps.push(view.gap(Kind::Siren, id, "Which screw the external sounder's tamper comes back on"));
        }
        Fact::Is(tamper) if tamper.returns.is_none() => {
            let says = "What the external sounder's tamper returns to";
            gaps.push(view.about(Kind::Siren, id, &tamper.terminal, says));
        }
        Fact::Is(_) | Fact::Absent => {}
    }
    if siren.hold_off.is_not_known() {
        gaps.push(view.gap(Kind::HoldOff, id, "Which screw holds the external sounder off"));
    }
    gaps
}

fn of_device(view: &View<'_>, device: &Device) -> Vec<Gap> {
    let id = &device.id;
    let mut gaps = Vec::new();
    for trigger in device.triggers.iter().filter(|trigger| trigger.fires.is_none()) {
        gaps.push(view.gap(Kind::Siren, id, format!("How its {} trigger is fired", trigger.trigger)));
    }
    if device.class != Some(DeviceClass::ExternalSounder) {
        return gaps;
    }
    if device.triggers.is_empty() {
        gaps.push(view.gap(Kind::Siren, id, "What fires it"));
    }
    if device.tamper.is_not_known() || device.tamper.get().is_some() && device.tamper_returns().is_none() {
        gaps.push(view.gap(Kind::Siren, id, "What its tamper returns to"));
    }
    if device.self_activating.is_none() {
        gaps.push(view.gap(Kind::HoldOff, id, "Whether it sounds when its hold-off is lost"));
    }
    gaps
}
