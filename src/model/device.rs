//! Detectors, contacts, sounders, keypads: what hangs on the cables.

use super::{CardId, Fact, Fires, SourceText};
use crate::units::{Amps, Ohms, Volts, Window};
use serde::{Deserialize, Serialize};

/// A device card.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Device {
    /// The card's id.
    pub id: CardId,
    /// Who made it; a generic device has none.
    pub maker: Option<String>,
    /// What its maker calls it.
    pub model: Option<String>,
    /// Other names it goes by.
    pub also: Vec<String>,
    /// Where its facts come from.
    pub sources: Vec<SourceText>,
    /// What it is.
    pub does: Option<String>,
    /// Its class; `None`: not known.
    pub class: Option<DeviceClass>,
    /// What it is fed; `Absent`: needs no supply.
    pub supply: Fact<DeviceSupply>,
    /// Its alarm contact.
    pub alarm: Fact<Contact>,
    /// Its tamper contact.
    pub tamper: Fact<Contact>,
    /// What fires it.
    pub triggers: Vec<DeviceTrigger>,
    /// The window at the two wires of a two-wire sounder.
    pub volts: Option<Window<Volts>>,
    /// Whether it has its own battery and sounds when hold-off is lost; `None`: not known.
    pub self_activating: Option<bool>,
    /// The order in which it goes back; `None`: not known.
    pub reconnect: Option<Reconnect>,
    /// How many bus cores it needs besides its supply.
    pub data: usize,
    /// The bus it speaks.
    pub bus: Option<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
}

impl Device {
    /// Whether it is a sounder on two wires: triggers, and no supply (a supply left out is planned as absent).
    #[must_use]
    pub fn is_two_wire(&self) -> bool {
        self.supply.get().is_none() && !self.triggers.is_empty()
    }

    /// How its tamper comes back, the card's default filled in: `pair`, but for an external sounder not known.
    #[must_use]
    pub fn tamper_returns(&self) -> Option<Returns> {
        let tamper = self.tamper.get()?;
        tamper.returns.or((self.class != Some(DeviceClass::ExternalSounder)).then_some(Returns::Pair))
    }

    /// Whether it must be taken as a sounder that sounds when hold-off is lost: it is one, or nobody knows.
    #[must_use]
    pub fn may_self_activate(&self) -> bool {
        match self.self_activating {
            Some(known) => known,
            None => self.class == Some(DeviceClass::ExternalSounder),
        }
    }
}

/// What kind of thing a device is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the words are the trade's own")]
pub enum DeviceClass {
    Detector,
    Contact,
    Sounder,
    ExternalSounder,
    Speaker,
    Keypad,
    Button,
    Other,
}

impl DeviceClass {
    /// Every class, with the word a card writes.
    pub const WORDS: [(&'static str, Self); 8] = [
        ("detector", Self::Detector),
        ("contact", Self::Contact),
        ("sounder", Self::Sounder),
        ("external-sounder", Self::ExternalSounder),
        ("speaker", Self::Speaker),
        ("keypad", Self::Keypad),
        ("button", Self::Button),
        ("other", Self::Other),
    ];

    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, c)| *c == self).map_or("other", |(w, _)| w)
    }
}

/// What a device is fed.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct DeviceSupply {
    /// What it must be fed.
    pub volts: Option<Window<Volts>>,
    /// What it draws at rest.
    pub standby: Option<Amps>,
    /// What it draws in alarm; the card's default, the same as standby, is filled in.
    pub alarm: Option<Amps>,
}

/// A contact of a device.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Contact {
    /// At rest; `None`: not known.
    pub contact: Option<ContactKind>,
    /// Resistance in series with it; not given: 0 Ω.
    pub series: Ohms,
    /// What a tamper comes back to; `None`: the card does not say.
    pub returns: Option<Returns>,
}

/// How a contact is at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum ContactKind {
    /// Closed at rest.
    NormallyClosed,
    /// Open at rest.
    NormallyOpen,
}

/// What a tamper contact comes back to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Returns {
    /// A core of its own.
    Pair,
    /// The supply negative.
    Negative,
    /// The supply positive.
    Positive,
}

impl Returns {
    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pair => "pair",
            Self::Negative => "negative",
            Self::Positive => "positive",
        }
    }
}

/// What fires a sounder or a strobe.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct DeviceTrigger {
    /// What it is: `siren`, `strobe` …
    pub trigger: String,
    /// How it is fired; `None`: not known.
    pub fires: Option<Fires>,
    /// What it draws while it is fired; `None`: not known.
    pub current: Option<Amps>,
    /// The resistor to positive that it wants at the board's end.
    pub pull_up: Option<Ohms>,
}

/// What goes back first on a self-activating sounder.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Reconnect {
    /// The hold-off, then its own battery.
    HoldOffFirst,
    /// Its own battery, then the hold-off.
    BatteryFirst,
}
