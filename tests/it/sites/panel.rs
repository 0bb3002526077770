//! The old panel of a random site, and the cable types.

use super::{PANEL, Rng, by_id, ohms};
use std::collections::BTreeMap;
use wirelore::model::{
    Cable, Conductor, Evidence, Fact, Fires, Keypad, Pair, Panel, PowerBlock, Returns, Siren, SirenTamper,
    SirenTrigger, Terminal, Unit, Wiring, Zone,
};
use wirelore::units::Volts;

/// How many zones every random panel has.
pub(super) const ZONES: usize = 8;
/// The trigger names that every random panel knows, and their terminals.
pub(super) const TRIGGERS: [(&str, &str); 2] = [("siren", "SIR"), ("strobe", "STB")];
/// Every way of firing a sounder.
pub(super) const FIRES: [Fires; 4] =
    [Fires::NegativeApplied, Fires::NegativeRemoved, Fires::PositiveApplied, Fires::PositiveRemoved];

const COLOURS: [&str; 12] =
    ["red", "black", "blue", "yellow", "green", "white", "brown", "orange", "violet", "grey", "pink", "turquoise"];

/// A panel whose terminals are always the same; what they do differs a little.
pub(super) fn panel(rng: &mut Rng) -> Panel {
    let wiring = rng.pick(&[Wiring::ClosedLoop, Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol]);
    let zones = (1..=ZONES)
        .map(|n| Zone { zone: n.to_string(), pair: pair(&format!("Z{n}"), &format!("Z{n}C"), wiring), tamper: None })
        .collect();
    Panel {
        unit: Unit {
            id: PANEL.into(),
            terminals: marks().into_iter().map(|mark| terminal(&mark)).collect(),
            power: Fact::Is(power()),
            keypad: Fact::Is(keypad()),
            ..Unit::default()
        },
        zones,
        tamper: Fact::Is(pair("T", "TC", Wiring::ClosedLoop)),
        siren: Fact::Is(siren(rng)),
    }
}

fn marks() -> Vec<String> {
    let fixed = ["AUX+", "AUX-", "S+", "S0", "SIR", "STB", "STR", "STC", "T", "TC", "KA", "KB"];
    let zones = (1..=ZONES).flat_map(|n| [format!("Z{n}"), format!("Z{n}C")]);
    fixed.into_iter().map(String::from).chain(zones).collect()
}

/// A screw of which nothing is known but its mark.
pub(super) fn terminal(mark: &str) -> Terminal {
    Terminal {
        mark: mark.into(),
        group: None,
        does: None,
        polarity: None,
        volts: None,
        limit: None,
        fuse: None,
        notes: None,
        cite: Vec::new(),
        evidence: Evidence::default(),
    }
}

fn pair(out: &str, back: &str, wiring: Wiring) -> Pair {
    Pair { out: out.into(), back: back.into(), wiring: Some(wiring), cite: Vec::new() }
}

fn power() -> PowerBlock {
    PowerBlock {
        out: Some(("AUX+".into(), "AUX-".into())),
        volts: Volts::new(13.7),
        limit: None,
        alarm_limit: None,
        fuse: None,
        own: None,
        charge: None,
        cutoff: Volts::new(10.5),
        battery: Fact::NotKnown,
        quiet: None,
        cite: Vec::new(),
    }
}

fn keypad() -> Keypad {
    Keypad {
        positive: Some("AUX+".into()),
        negative: Some("AUX-".into()),
        data: vec!["KA".into(), "KB".into()],
        bus: Some("old".into()),
        cite: Vec::new(),
    }
}

fn siren(rng: &mut Rng) -> Siren {
    let trigger = |(name, mark): (&str, &str), fires| SirenTrigger {
        trigger: name.into(),
        terminal: mark.into(),
        fires: Some(fires),
    };
    let returns = rng.pick(&[Returns::Pair, Returns::Negative]);
    Siren {
        hold_off: Fact::Is("S+".into()),
        negative: Fact::Is("S0".into()),
        triggers: TRIGGERS.iter().map(|t| trigger(*t, rng.pick(&FIRES))).collect(),
        tamper: Fact::Is(SirenTamper {
            terminal: "STR".into(),
            returns: Some(returns),
            with: (returns == Returns::Pair).then(|| "STC".into()),
        }),
        cite: Vec::new(),
    }
}

/// Cables of 4 to 12 cores.
pub(super) fn cable_types() -> BTreeMap<String, Cable> {
    by_id([4, 6, 8, 10, 12].map(|cores| (format!("alarm-{cores}"), cable_type(cores))).into())
}

fn cable_type(cores: usize) -> Cable {
    Cable {
        id: format!("alarm-{cores}"),
        does: None,
        cores: COLOURS.iter().take(cores).map(|c| (*c).to_string()).collect(),
        conductor: Some(Conductor::OhmsPerKm(ohms(92))),
        rating: None,
    }
}
