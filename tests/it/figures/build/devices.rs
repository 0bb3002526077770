//! Devices of plain figures.

use super::{amps, q, window};
use wirelore::model::{Contact, ContactKind, Device, DeviceClass, DeviceSupply, DeviceTrigger, Fact, Fires, Returns};

/// A normally-closed contact.
pub(in crate::figures) fn contact(series: &str, returns: Option<Returns>) -> Fact<Contact> {
    Fact::Is(Contact { contact: Some(ContactKind::NormallyClosed), series: q(series), returns })
}

/// A device with nothing in it.
pub(in crate::figures) fn device(id: &str) -> Device {
    Device {
        id: id.into(),
        maker: None,
        model: None,
        also: vec![],
        sources: vec![],
        does: None,
        class: Some(DeviceClass::Other),
        supply: Fact::Absent,
        alarm: Fact::Absent,
        tamper: Fact::Absent,
        triggers: vec![],
        volts: None,
        self_activating: None,
        reconnect: None,
        data: 0,
        bus: None,
        cautions: vec![],
    }
}

/// What a device is fed, in a window of 9 to 16 V.
pub(in crate::figures) fn fed(standby: f64, alarm: f64) -> Fact<DeviceSupply> {
    Fact::Is(DeviceSupply { volts: window("9 V", "16 V"), standby: amps(standby), alarm: amps(alarm) })
}

/// A motion detector of 12 mA, 18 mA in alarm, 10 Ω in its alarm contact.
pub(in crate::figures) fn detector() -> Device {
    Device {
        supply: fed(0.012, 0.018),
        alarm: contact("10 Ω", None),
        tamper: contact("0 Ω", None),
        ..device("motion-detector")
    }
}

/// A door contact with a tamper pair.
pub(in crate::figures) fn door() -> Device {
    Device { alarm: contact("1 Ω", None), tamper: contact("2 Ω", None), ..device("door-contact") }
}

/// A trigger.
pub(in crate::figures) fn trigger(name: &str, fires: Fires, current: f64) -> DeviceTrigger {
    DeviceTrigger { trigger: name.into(), fires: Some(fires), current: amps(current), pull_up: None }
}

/// An external sounder: 20 mA, siren 350 mA and strobe 120 mA by negative applied, a one-core tamper.
pub(in crate::figures) fn sounder() -> Device {
    Device {
        class: Some(DeviceClass::ExternalSounder),
        supply: fed(0.02, 0.02),
        tamper: contact("0 Ω", Some(Returns::Negative)),
        triggers: vec![trigger("siren", Fires::NegativeApplied, 0.35), trigger("strobe", Fires::NegativeApplied, 0.12)],
        ..device("external-sounder")
    }
}

/// A sounder on two wires, in a window of 9 to 15 V.
pub(in crate::figures) fn two_wire(fires: Fires, current: f64) -> Device {
    Device {
        class: Some(DeviceClass::Sounder),
        triggers: vec![trigger("siren", fires, current)],
        volts: window("9 V", "15 V"),
        ..device("piezo-sounder")
    }
}
