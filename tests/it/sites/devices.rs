//! The devices of a random site.

use super::panel::FIRES;
use super::{Knobs, Rng, by_id, milliamps, ohms, tenths_of_volts};
use std::collections::BTreeMap;
use wirelore::model::{Contact, ContactKind, Device, DeviceClass, DeviceSupply, DeviceTrigger, Fact, Returns};

/// How many cards of each kind.
const EACH: usize = 8;

/// The device cards: `plain-N`, `sounder-N` and `keypad-N`.
pub(super) fn devices(rng: &mut Rng, knobs: &Knobs) -> BTreeMap<String, Device> {
    let mut cards = Vec::new();
    for n in 0..EACH {
        cards.push((format!("plain-{n}"), plain(rng, knobs)));
        cards.push((format!("sounder-{n}"), sounder(rng, knobs)));
    }
    cards.push(("keypad-0".into(), keypad(rng, knobs)));
    for (id, device) in &mut cards {
        device.id.clone_from(id);
    }
    by_id(cards)
}

/// One of the cards, by the site's wish for sounders.
pub(super) fn pick(rng: &mut Rng, knobs: &Knobs) -> String {
    if rng.chance(knobs.sounders) {
        format!("sounder-{}", rng.below(EACH))
    } else if rng.chance(6) {
        "keypad-0".into()
    } else {
        format!("plain-{}", rng.below(EACH))
    }
}

fn bare(class: DeviceClass) -> Device {
    Device {
        id: String::new(),
        maker: None,
        model: None,
        also: Vec::new(),
        sources: Vec::new(),
        does: None,
        class: Some(class),
        supply: Fact::Absent,
        alarm: Fact::Absent,
        tamper: Fact::Absent,
        triggers: Vec::new(),
        volts: None,
        self_activating: None,
        reconnect: None,
        data: 0,
        bus: None,
        cautions: Vec::new(),
    }
}

/// Detectors, contacts, buttons and odd things.
fn plain(rng: &mut Rng, knobs: &Knobs) -> Device {
    use DeviceClass::{Button, Contact as Door, Detector, Other};
    let class = rng.pick(&[Detector, Detector, Detector, Door, Door, Button, Other]);
    let mut device = bare(class);
    if class == Detector || (class == Other && rng.chance(50)) {
        device.supply = supply(rng);
    }
    if class != Other || rng.chance(50) {
        device.alarm = contact(rng, None);
    }
    if rng.chance(if class == Detector { 90 } else { 50 }) {
        device.tamper = tamper(rng, knobs);
    }
    if rng.chance(5) {
        device.class = None;
    }
    left_out(rng, &mut device);
    device
}

/// Leaves out a key now and then: what it says is planned as absent.
fn left_out(rng: &mut Rng, device: &mut Device) {
    if rng.chance(3) {
        device.supply = Fact::NotKnown;
    }
    if rng.chance(3) {
        device.alarm = Fact::NotKnown;
    }
    if rng.chance(3) {
        device.tamper = Fact::NotKnown;
    }
}

/// Sounders on two wires or more, the external ones, and now and then a speaker.
fn sounder(rng: &mut Rng, knobs: &Knobs) -> Device {
    use DeviceClass::{ExternalSounder, Sounder, Speaker};
    let mut device = bare(rng.pick(&[Sounder, Sounder, ExternalSounder, ExternalSounder, Sounder]));
    let two_wire = device.class == Some(Sounder) && rng.chance(50);
    if rng.chance(5) {
        device.class = Some(Speaker);
    }
    let fires = rng.pick(&FIRES);
    let several = rng.between((1, if two_wire { 1 } else { 2 }));
    for name in ["siren", "strobe"].into_iter().skip(rng.below(3 - several)).take(several) {
        let other = if two_wire { fires } else { rng.pick(&FIRES) };
        let this = if rng.chance(60) { fires } else { other };
        device.triggers.push(trigger(rng, name, this));
    }
    if two_wire {
        device.volts = Some(tenths_of_volts(90, 150));
    } else {
        device.supply = supply(rng);
    }
    if rng.chance(60) {
        device.tamper = tamper(rng, knobs);
    }
    if rng.chance(5) {
        device.alarm = contact(rng, None);
    }
    left_out(rng, &mut device);
    device
}

fn trigger(rng: &mut Rng, name: &str, fires: wirelore::model::Fires) -> DeviceTrigger {
    DeviceTrigger {
        trigger: name.into(),
        fires: (!rng.chance(3)).then_some(fires),
        current: rng
            .pick(&[Some(50), Some(100), Some(120), Some(150), Some(200), Some(350), Some(500), None])
            .map(milliamps),
        pull_up: None,
    }
}

fn keypad(rng: &mut Rng, knobs: &Knobs) -> Device {
    let mut device = bare(DeviceClass::Keypad);
    device.supply = supply(rng);
    device.data = rng.between((1, 2));
    device.bus = Some("fennick".into());
    if rng.chance(50) {
        device.tamper = tamper(rng, knobs);
    }
    device
}

fn supply(rng: &mut Rng) -> Fact<DeviceSupply> {
    let standby = milliamps(rng.pick(&[10, 20, 30]));
    let alarm = milliamps(rng.pick(&[30, 40, 60]));
    Fact::Is(DeviceSupply { volts: Some(tenths_of_volts(90, 160)), standby: Some(standby), alarm: Some(alarm) })
}

fn contact(rng: &mut Rng, returns: Option<Returns>) -> Fact<Contact> {
    let kind = if rng.chance(2) { ContactKind::NormallyOpen } else { ContactKind::NormallyClosed };
    Fact::Is(Contact { contact: Some(kind), series: ohms(rng.pick(&[0, 0, 10])), returns })
}

fn tamper(rng: &mut Rng, knobs: &Knobs) -> Fact<Contact> {
    let returns = if rng.chance(knobs.one_core) {
        Some(Returns::Negative)
    } else {
        rng.pick(&[None, Some(Returns::Pair), Some(Returns::Pair), Some(Returns::Pair), Some(Returns::Positive)])
    };
    contact(rng, returns)
}
