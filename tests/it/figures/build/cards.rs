//! A panel, a board, a cable type and rules of plain figures.

use super::{q, window};
use wirelore::model::{
    Band, Bands, Board, Cable, Conductor, DoubleEol, Eol, Evidence, Fact, Feed, Feeds, Fuse, Grade, Input, InputUse,
    LoopState, Output, OutputKind, Panel, PowerBlock, Rules, StandbyBattery, Supply, TemperaturePoint, Unit, Wiring,
};
use wirelore::units::Ohms;

/// A fuse of this rating.
pub(in crate::figures) fn fuse(mark: &str, rating: &str) -> Fuse {
    Fuse {
        mark: mark.into(),
        rating: Some(q(rating)),
        speed: None,
        size: None,
        guards: None,
        place: None,
        cite: vec![],
        evidence: Evidence::default(),
    }
}

pub(in crate::figures) fn panel() -> Panel {
    let battery = StandbyBattery {
        fits: vec![q("2.1 Ah"), q("7 Ah"), q("17 Ah")],
        terminals: vec![],
        fuse: Some("F3".into()),
        cite: vec![],
    };
    let power = PowerBlock {
        out: None,
        volts: Some(q("13.7 V")),
        limit: Some(q("400 mA")),
        alarm_limit: Some(q("1 A")),
        fuse: Some("F2".into()),
        own: Some(q("60 mA")),
        charge: Some(q("300 mA")),
        cutoff: Some(q("10.5 V")),
        battery: Fact::Is(battery),
        quiet: None,
        cite: vec![],
    };
    let unit = Unit {
        id: "panel-card".into(),
        fuses: vec![fuse("F2", "1 A"), fuse("F3", "1.6 A")],
        power: Fact::Is(power),
        ..Unit::default()
    };
    Panel { unit, ..Panel::default() }
}

/// A supply of the board.
pub(in crate::figures) fn supply(name: &str, limit: &str, fuse: Option<&str>) -> Supply {
    Supply {
        supply: name.into(),
        positive: format!("{name}+"),
        negative: format!("{name}-"),
        limit: Some(q(limit)),
        alarm_limit: None,
        fuse: fuse.map(String::from),
        feeds: Feeds::Any,
        drop: q("0 V"),
        drop_given: true,
        cite: vec![],
    }
}

/// An open-collector output.
pub(in crate::figures) fn output(name: &str, limit: &str) -> Output {
    Output {
        output: name.into(),
        kind: OutputKind::OpenCollector { terminal: "OUT1".into() },
        limit: Some(q(limit)),
        pull_up: Fact::Absent,
        cite: vec![],
    }
}

/// A band from and to so many ohms.
pub(in crate::figures) fn band(state: LoopState, from: Option<f64>, to: Option<f64>) -> Band {
    Band { state, from: from.and_then(Ohms::new), to: to.and_then(Ohms::new) }
}

pub(in crate::figures) fn bands() -> Bands {
    use LoopState::{Alarm, Normal, Short, Tamper};
    let single = vec![
        band(Short, None, Some(1500.0)),
        band(Normal, Some(1500.0), Some(7000.0)),
        band(Alarm, Some(7000.0), None),
    ];
    let mut double = single.clone();
    double[2].to = Ohms::new(13_000.0);
    double.push(band(Tamper, Some(13_000.0), None));
    Bands {
        closed_loop: Some(vec![band(Normal, None, Some(1000.0)), band(Alarm, Some(1000.0), None)]),
        single_eol: Some(single),
        double_eol: Some(double),
        cite: vec![],
    }
}

pub(in crate::figures) fn board() -> Board {
    Board {
        unit: Unit { id: "board-card".into(), fuses: vec![fuse("F1", "1 A")], ..Unit::default() },
        feed: Some(Feed {
            terminals: None,
            volts: window("10 V", "15 V"),
            standby: Some(q("140 mA")),
            alarm: Some(q("180 mA")),
            cite: vec![],
        }),
        supplies: vec![supply("AUX", "750 mA", Some("F1"))],
        inputs: vec![Input {
            input: "1".into(),
            out: "IN1".into(),
            back: "C1".into(),
            accepts: vec![Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol],
            usage: InputUse::Any,
            returns_negative: false,
            cite: vec![],
        }],
        eol: Eol {
            single: Some(q("4.7 kΩ")),
            double: Some(DoubleEol { end: q("4.7 kΩ"), alarm: q("4.7 kΩ") }),
            tolerance: Some(q("5 %")),
            cite: vec![],
        },
        bands: bands(),
        outputs: vec![output("SND", "1 A")],
    }
}

pub(in crate::figures) fn cable() -> Cable {
    Cable {
        id: "cable-card".into(),
        does: None,
        cores: ["red", "black", "blue", "yellow", "green", "white"].map(String::from).to_vec(),
        conductor: Some(Conductor::OhmsPerKm(q("80 Ω"))),
        rating: Some(q("1 A")),
    }
}

pub(in crate::figures) fn rules() -> Rules {
    let grade = Grade {
        grade: "2".into(),
        standby: Some(q("12 h")),
        standby_reported: Some(q("6 h")),
        alarm: Some(q("15 min")),
        recharge: Some(q("72 h")),
        cite: vec![],
    };
    let at = |at: &str, factor: f64| TemperaturePoint { at: q(at), factor };
    Rules {
        rules: "test-rules".into(),
        title: None,
        grades: vec![grade],
        ageing: Some(1.25),
        peukert: Some(1.15),
        // Capacity by temperature as a VRLA data sheet publishes it.
        temperature: vec![at("-15 C", 0.65), at("0 C", 0.85), at("25 C", 1.0), at("40 C", 1.02)],
        siren_cut_off: None,
    }
}
