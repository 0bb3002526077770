//! The old control unit.

use super::{Cite, Fact, Fires, Mark, Returns, Unit, Wiring};
use serde::{Deserialize, Serialize};

/// An old panel.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Panel {
    /// Screws, fuses, power.
    pub unit: Unit,
    /// Its zones, in card order.
    pub zones: Vec<Zone>,
    /// Its own tamper pair.
    pub tamper: Fact<Pair>,
    /// How the external sounder and strobe are wired.
    pub siren: Fact<Siren>,
}

/// A zone of the old panel.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Zone {
    /// Its name.
    pub zone: String,
    /// Its two terminals and how they are watched.
    pub pair: Pair,
    /// The zone's own tamper pair, on a panel that has one for each zone.
    pub tamper: Option<Pair>,
}

/// Two terminals of one loop: out and back.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Pair {
    /// Where the loop leaves.
    pub out: Mark,
    /// Where it returns.
    pub back: Mark,
    /// How it is watched; `None`: not known.
    pub wiring: Option<Wiring>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// The external sounder's wiring.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Siren {
    /// The terminal that holds a self-activating sounder silent.
    pub hold_off: Fact<Mark>,
    /// The sounder's negative.
    pub negative: Fact<Mark>,
    /// What fires what.
    pub triggers: Vec<SirenTrigger>,
    /// The sounder's tamper.
    pub tamper: Fact<SirenTamper>,
    /// Where this is from; without a cite of its own, its terminals' count.
    pub cite: Vec<Cite>,
}

/// A terminal that fires a sounder or a strobe.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SirenTrigger {
    /// What it fires: `siren`, `strobe` …
    pub trigger: String,
    /// The terminal.
    pub terminal: Mark,
    /// How; `None`: not known.
    pub fires: Option<Fires>,
}

/// How the external sounder's tamper comes back.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SirenTamper {
    /// The terminal.
    pub terminal: Mark,
    /// What it comes back to.
    pub returns: Option<Returns>,
    /// The other terminal, where it returns on a pair.
    pub with: Option<Mark>,
}
