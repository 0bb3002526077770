//! A small library made by hand: two panels with marks that are easy to confuse.

use wirelore::model::{
    Cite, Evidence, Fact, Fires, Fuse, FuseSpeed, Group, How, Library, Link, Mains, Note, Pair, Panel, PowerBlock,
    Siren, SirenTamper, SirenTrigger, StandbyBattery, Terminal, Terms, Unit, Wiring, Zone,
};
use wirelore::units::{Amps, Quantity, Volts, Window};

pub(super) fn library() -> Library {
    let mut library = Library::default();
    library.panels.insert("alder-a9".into(), alder());
    library.panels.insert("birch-2".into(), birch());
    library.notes.insert("alder-a9".into(), vec![note()]);
    let ring = |words: &[&str]| words.iter().map(|w| (*w).to_string()).collect();
    library.terms = Terms {
        rings: vec![
            ring(&["strobe", "stb", "flash", "beacon", "flasher"]),
            ring(&["hold-off", "h/o", "hold"]),
            ring(&["bell", "siren", "sounder", "stb"]),
        ],
    };
    library
}

fn cite(source: &str, place: &str, how: How) -> Cite {
    Cite { source: source.into(), place: place.into(), how }
}

fn terminal(mark: &str, group: Group, does: &str) -> Terminal {
    Terminal {
        mark: mark.into(),
        group: Some(group),
        does: Some(does.into()),
        polarity: None,
        volts: None,
        limit: None,
        fuse: None,
        notes: None,
        cite: vec![cite("manual", "p.6", How::Manual)],
        evidence: Evidence::default(),
    }
}

fn volts(text: &str) -> Volts {
    Volts::read(text).expect("volts")
}

fn fuse(mark: &str, guards: &str) -> Fuse {
    Fuse {
        mark: mark.into(),
        rating: Amps::read("1 A").ok(),
        speed: Some(FuseSpeed::F),
        size: Some("5x20".into()),
        guards: Some(guards.into()),
        place: Some("above the strip".into()),
        cite: Vec::new(),
        evidence: Evidence::default(),
    }
}

fn pair(out: &str, back: &str) -> Pair {
    Pair { out: out.into(), back: back.into(), wiring: Some(Wiring::ClosedLoop), cite: Vec::new() }
}

fn alder_terminals() -> Vec<Terminal> {
    let mut plus = terminal("A+", Group::Supply, "12 V out to detectors");
    plus.volts = Some(Window { low: volts("13.2 V"), high: volts("14.2 V") });
    plus.fuse = Some("F2".into());
    plus.cite.push(cite("bench", "", How::Measured));
    let mut hold = terminal("H/O+", Group::Siren, "External sounder hold-off positive");
    hold.fuse = Some("F2".into());
    vec![
        terminal("L", Group::Mains, "Mains live"),
        terminal("BAT+", Group::Battery, "Standby battery positive"),
        plus,
        terminal("A-", Group::Supply, "Detector common, pairs with A+ for 12 V out to detectors"),
        hold,
        terminal("STB-", Group::Strobe, "Strobe trigger"),
        terminal("STB+", Group::Strobe, "Strobe positive"),
        terminal("Z1", Group::Zone, "Zone 1"),
        terminal("Z1C", Group::Zone, "Zone 1 return"),
        terminal("TB1:3", Group::Other, "Programmer socket"),
        terminal("-12V", Group::Other, "Negative rail"),
        terminal("D", Group::Siren, "Letter D of the sounder strip"),
        terminal("D1", Group::Keypad, "Keypad data"),
        terminal("0V", Group::Supply, "Common"),
    ]
}

fn alder() -> Panel {
    let siren = Siren {
        hold_off: Fact::Is("H/O+".into()),
        negative: Fact::Is("0V".into()),
        triggers: vec![SirenTrigger {
            trigger: "strobe".into(),
            terminal: "STB-".into(),
            fires: Some(Fires::NegativeApplied),
        }],
        tamper: Fact::Is(SirenTamper { terminal: "D".into(), returns: None, with: None }),
        cite: Vec::new(),
    };
    let battery = StandbyBattery { fits: Vec::new(), terminals: vec!["BAT+".into()], fuse: None, cite: Vec::new() };
    let power = PowerBlock {
        out: Some(("A+".into(), "A-".into())),
        volts: Some(volts("13.7 V")),
        limit: None,
        alarm_limit: None,
        fuse: Some("F2".into()),
        own: None,
        charge: None,
        cutoff: None,
        battery: Fact::Is(battery),
        quiet: None,
        cite: Vec::new(),
    };
    let unit = Unit {
        id: "alder-a9".into(),
        maker: Some("Alder".into()),
        model: Some("A9".into()),
        markings: vec!["4410-B ISS 3".into()],
        terminals: alder_terminals(),
        fuses: vec![fuse("F1", "Mains"), fuse("F2", "12 V outputs")],
        links: vec![Link {
            mark: "LK2".into(),
            does: "Fitted: lid tamper is silent".into(),
            cite: Vec::new(),
            evidence: Evidence::default(),
        }],
        cautions: vec!["The heat sink beside A+ stays hot for minutes.".into()],
        mains: Fact::Is(Mains { terminals: vec!["L".into()], fuse: Some("F1".into()), cite: Vec::new() }),
        power: Fact::Is(power),
        ..Unit::default()
    };
    Panel {
        unit,
        zones: vec![Zone { zone: "1".into(), pair: pair("Z1", "Z1C"), tamper: None }],
        tamper: Fact::Absent,
        siren: Fact::Is(siren),
    }
}

fn birch() -> Panel {
    let unit = Unit {
        id: "birch-2".into(),
        maker: Some("Birch".into()),
        model: Some("Two".into()),
        terminals: vec![
            terminal("A+", Group::Supply, "Speaker positive"),
            terminal("+", Group::Other, "Positive"),
            terminal("-", Group::Other, "Negative"),
        ],
        fuses: vec![fuse("F2", "Keypads")],
        ..Unit::default()
    };
    Panel { unit, ..Panel::default() }
}

fn note() -> Note {
    Note {
        file: "2026-11-03-the-flasher-idles.md".into(),
        about: Some("STB-".into()),
        date: None,
        by: Some("KM".into()),
        job: None,
        how: Some(How::Measured),
        agrees: None,
        text: "The flasher idles at 12.9 V here.".into(),
        pictures: Vec::new(),
    }
}
