//! The screws of an old panel: how its maker marks them, and which do what.

use super::names::Name;
use super::rng::Rng;

/// How makers mark what feeds detectors: positive and negative.
const SUPPLIES: [(&str, &str); 8] = [
    ("AUX+", "AUX-"),
    ("12V", "0V"),
    ("+12", "0"),
    ("DC+", "DC-"),
    ("V+", "V-"),
    ("+", "-"),
    ("A+", "A-"),
    ("PS+", "PS-"),
];
/// How makers mark the sounder's strip: hold-off, negative, siren, strobe, tamper.
const SIRENS: [[&str; 5]; 8] = [
    ["S+", "S0", "SIR", "STB", "STR"],
    ["H+", "H-", "BP", "SP", "TR"],
    ["HO+", "HO-", "BL", "LAMP", "RT"],
    ["H/O", "HC", "TRG", "FLS", "TMP"],
    ["SND+", "SND-", "BELL", "STRB", "SAB"],
    ["+H", "-H", "SN", "ST", "TT"],
    ["D", "C", "B", "S", "A"],
    ["HOLD+", "HOLD-", "SIREN", "STROBE", "RTN"],
];
/// How makers mark the tamper loop.
const TAMPERS: [(&str, &str); 5] = [("T", "TC"), ("TA", "TB"), ("TM", "TMR"), ("24H", "24C"), ("TP+", "TP-")];
/// How makers mark a keypad's four screws.
const KEYPADS: [[&str; 4]; 3] = [["KP+", "KP-", "CK", "DT"], ["K+", "K-", "KA", "KB"], ["RK+", "RK-", "CLK", "DAT"]];
/// How makers mark the battery.
const BATTERIES: [(&str, &str); 3] = [("BAT+", "BAT-"), ("B+", "B-"), ("BATT+", "BATT-")];
/// How a sounder is fired, siren and strobe, with the demo library's sounder that fits, and how often in a hundred.
pub(super) const FIRES: [(&str, &str, &str, u32); 4] = [
    ("negative-applied", "negative-applied", "external-sounder", 80),
    ("positive-applied", "positive-applied", "external-sounder-positive-applied", 5),
    ("negative-removed", "negative-applied", "external-sounder-negative-removed", 8),
    ("positive-removed", "positive-applied", "external-sounder-positive-removed", 7),
];

/// What a survey must know of a panel.
#[derive(Debug)]
pub(super) struct Strip {
    pub(super) name: Name,
    pub(super) supply: (&'static str, &'static str),
    pub(super) siren: [&'static str; 5],
    pub(super) zones: Vec<(String, String)>,
    pub(super) wiring: &'static str,
    pub(super) tamper: Option<(&'static str, &'static str)>,
    pub(super) keypad: Option<[&'static str; 4]>,
    pub(super) battery: (&'static str, &'static str),
    /// Which of `FIRES`.
    pub(super) fires: usize,
    /// What the fuses' marks begin with.
    pub(super) fuse: &'static str,
}

impl Strip {
    /// The `number`-th panel.
    pub(super) fn new(rng: &mut Rng, number: usize) -> Self {
        let wiring = if rng.chance(80) { "closed-loop" } else { rng.pick(&["single-eol", "double-eol"]) };
        let zones = rng.pick(&[4, 6, 6, 8, 8, 8, 10, 12, 16]);
        let style = rng.below(ZONES.len());
        Self {
            name: Name::new("", number),
            supply: rng.pick(&SUPPLIES),
            siren: rng.pick(&SIRENS),
            zones: (1..=zones).map(ZONES[style]).collect(),
            wiring,
            tamper: (wiring != "double-eol").then(|| rng.pick(&TAMPERS)),
            keypad: rng.chance(60).then(|| rng.pick(&KEYPADS)),
            battery: rng.pick(&BATTERIES),
            fires: fires(rng),
            fuse: rng.pick(&["F", "F", "FS", "FU"]),
        }
    }

    /// Marks that a note could be about.
    pub(super) fn marks(&self) -> Vec<String> {
        let supply = [self.supply.0, self.supply.1];
        self.siren.iter().chain(&supply).map(|mark| (*mark).to_string()).chain([format!("{}2", self.fuse)]).collect()
    }

    /// The second screw of the sounder's tamper, where it comes back on a core of its own.
    pub(super) fn tamper_back(&self) -> Option<String> {
        FIRES[self.fires].0.ends_with("removed").then(|| format!("{}X", self.siren[4]))
    }

    /// The sounder of the demo library that it fires.
    pub(super) fn sounder(&self) -> &'static str {
        FIRES[self.fires].2
    }
}

/// How makers mark zones: out and back.
const ZONES: [fn(usize) -> (String, String); 6] = [
    |n| (format!("Z{n}"), format!("Z{n}C")),
    |n| (format!("{n}A"), format!("{n}B")),
    |n| (format!("Z{n}a"), format!("Z{n}b")),
    |n| (format!("C{n}"), format!("R{n}")),
    |n| (format!("L{n}+"), format!("L{n}-")),
    |n| (format!("TB{n}:1"), format!("TB{n}:2")),
];

fn fires(rng: &mut Rng) -> usize {
    let mut left = u32::try_from(rng.below(100)).unwrap_or_default();
    for (at, (.., share)) in FIRES.iter().enumerate() {
        if left < *share {
            return at;
        }
        left -= share;
    }
    0
}
