//! Figures for a random site: what its cards and its survey say in volts, amperes, ohms and hours, each left out now
//! and then.

use super::{BOARD, PANEL, RULES, Rng, Site, milliamps, ohms, tenths_of_volts};
use wirelore::model::{
    BatteryState, Device, Fact, Fuse, FuseFound, FuseSpeed, Grade, LoadTest, MainsOff, OldBattery, Power, Settled,
    StandbyBattery, SurveyLoad, TemperaturePoint,
};
use wirelore::units::{AmpHours, Celsius, Hours, Percent, Volts};

/// The chance that a fact is there, in per cent.
const KNOWN: u32 = 85;

/// Puts figures on all cards and on the survey.
pub(super) fn figures(rng: &mut Rng, site: &mut Site) {
    panel(rng, site);
    board(rng, site);
    site.library.devices.values_mut().for_each(|device| self::device(rng, device));
    rules(rng, site);
    for cable in site.library.cables.values_mut() {
        cable.rating = maybe(rng, |rng| milliamps(rng.pick(&[500, 1000, 3000])));
    }
    survey(rng, site);
    measured(rng, site);
}

/// A fact that is there most often.
fn maybe<T>(rng: &mut Rng, fact: impl Fn(&mut Rng) -> T) -> Option<T> {
    rng.chance(KNOWN).then(|| fact(rng))
}

fn volts(tenths: u32) -> Volts {
    Volts::new(f64::from(tenths) / 10.0).expect("finite")
}

fn hours(quarters: u32) -> Hours {
    Hours::new(f64::from(quarters) / 4.0).expect("finite")
}

fn amp_hours(tenths: u32) -> AmpHours {
    AmpHours::new(f64::from(tenths) / 10.0).expect("finite")
}

fn fuse(rng: &mut Rng, mark: &str) -> Fuse {
    Fuse {
        mark: mark.into(),
        rating: maybe(rng, |rng| milliamps(rng.pick(&[100, 500, 1000, 1600]))),
        speed: maybe(rng, |rng| rng.pick(&[FuseSpeed::F, FuseSpeed::T])),
        size: maybe(rng, |_| "5x20".into()),
        guards: None,
        place: None,
        cite: Vec::new(),
        evidence: wirelore::model::Evidence::default(),
    }
}

fn panel(rng: &mut Rng, site: &mut Site) {
    let Some(panel) = site.library.panels.get_mut(PANEL) else { return };
    panel.unit.fuses = ["F1", "F2", "F3"].iter().map(|mark| fuse(rng, mark)).collect();
    for terminal in &mut panel.unit.terminals {
        if rng.chance(40) {
            let low = rng.pick(&[0, 115, 132]);
            terminal.volts = Some(tenths_of_volts(low, low + 10));
            terminal.limit = Some(milliamps(rng.pick(&[100, 400, 1000])));
            terminal.fuse = rng.chance(50).then(|| "F2".into());
        }
    }
    let Fact::Is(power) = &mut panel.unit.power else { return };
    power.volts = maybe(rng, |_| volts(137));
    power.limit = maybe(rng, |rng| milliamps(rng.pick(&[300, 1000, 3000])));
    power.alarm_limit = maybe(rng, |rng| milliamps(rng.pick(&[500, 1500, 5000])));
    power.own = maybe(rng, |rng| milliamps(rng.pick(&[20, 60, 100])));
    power.charge = maybe(rng, |rng| milliamps(rng.pick(&[100, 300, 900])));
    power.cutoff = maybe(rng, |rng| volts(rng.pick(&[96, 100, 105])));
    power.fuse = maybe(rng, |_| "F2".into());
    power.quiet = maybe(rng, |_| "links".into());
    power.battery = match rng.below(4) {
        0 => Fact::NotKnown,
        1 => Fact::Absent,
        _ => Fact::Is(StandbyBattery {
            fits: vec![amp_hours(21), amp_hours(70), amp_hours(170)],
            terminals: Vec::new(),
            fuse: maybe(rng, |_| "F3".into()),
            cite: Vec::new(),
        }),
    };
}

fn board(rng: &mut Rng, site: &mut Site) {
    let Some(board) = site.library.boards.get_mut(BOARD) else { return };
    board.unit.fuses = vec![fuse(rng, "B1")];
    if let Some(feed) = &mut board.feed {
        feed.standby = maybe(rng, |rng| milliamps(rng.pick(&[40, 100, 250])));
        feed.alarm = maybe(rng, |rng| milliamps(rng.pick(&[60, 150, 400])));
        feed.volts = maybe(rng, |_| tenths_of_volts(100, 150));
    }
    for supply in &mut board.supplies {
        supply.limit = maybe(rng, |rng| milliamps(rng.pick(&[200, 750, 2000])));
        supply.alarm_limit = maybe(rng, |rng| milliamps(rng.pick(&[400, 1000, 3000])));
        supply.fuse = rng.chance(50).then(|| "B1".into());
        supply.drop_given = rng.chance(KNOWN);
    }
    board.eol.tolerance = maybe(rng, |rng| Percent::new(f64::from(rng.pick(&[1_u32, 5, 20]))).expect("finite"));
}

fn device(rng: &mut Rng, device: &mut Device) {
    if let Fact::Is(supply) = &mut device.supply {
        supply.volts = maybe(rng, |_| tenths_of_volts(90, 160));
        supply.standby = maybe(rng, |rng| milliamps(rng.pick(&[5, 12, 30])));
        supply.alarm = maybe(rng, |rng| milliamps(rng.pick(&[8, 20, 300])));
    }
    for trigger in &mut device.triggers {
        trigger.current = maybe(rng, |rng| milliamps(rng.pick(&[50, 350, 900])));
        trigger.pull_up = maybe(rng, |rng| ohms(rng.pick(&[1000, 10_000])));
    }
    device.self_activating = maybe(rng, |rng| rng.chance(50));
}

fn rules(rng: &mut Rng, site: &mut Site) {
    let Some(rules) = site.library.rules.get_mut(RULES) else { return };
    rules.grades = vec![Grade {
        grade: "2".into(),
        standby: maybe(rng, |rng| hours(rng.pick(&[48, 96, 240]))),
        standby_reported: maybe(rng, |_| hours(24)),
        alarm: maybe(rng, |_| hours(1)),
        recharge: maybe(rng, |rng| hours(rng.pick(&[96, 288]))),
        cite: Vec::new(),
    }];
    rules.ageing = maybe(rng, |_| 1.25);
    rules.peukert = maybe(rng, |_| 1.15);
    let point = |at: f64, factor| TemperaturePoint { at: Celsius::new(at).expect("finite"), factor };
    rules.temperature = maybe(rng, |_| vec![point(0.0, 0.8), point(20.0, 1.0)]).unwrap_or_default();
}

fn survey(rng: &mut Rng, site: &mut Site) {
    let survey = &mut site.survey;
    survey.grade = maybe(rng, |_| "2".into());
    survey.monitored = maybe(rng, |rng| rng.chance(50));
    survey.mains_fail_reported = rng.chance(30);
    survey.service_code = maybe(rng, |rng| rng.chance(70));
    survey.temperature_given = rng.chance(KNOWN);
    if rng.chance(10) {
        survey.power = Some(Power::Board);
    }
    survey.loads = (0..rng.below(3)).map(|n| load(rng, n)).collect();
    survey.battery = if rng.chance(70) { Fact::Is(battery(rng)) } else { rng.pick(&[Fact::Absent, Fact::NotKnown]) };
    survey.new_battery = rng.chance(30).then(|| amp_hours(rng.pick(&[21, 70, 170])));
    let marks = ["AUX+", "S+", "SIR", "STB", "Z1"];
    survey.readings = marks.iter().filter(|_| rng.chance(40)).map(|m| ((*m).to_string(), volts(136))).collect();
    let found = [FuseFound::Blown, FuseFound::Bridged, FuseFound::Missing, FuseFound::Unknown];
    if rng.chance(60) {
        let other = FuseFound::Fitted(milliamps(rng.pick(&[500, 1000, 3150])), Some(FuseSpeed::F));
        let found = if rng.chance(40) { rng.pick(&found) } else { other };
        survey.fuses.push((rng.pick(&["F1", "F2", "F3"]).into(), found));
    }
    if rng.chance(25) {
        let code = rng.pick(&["fuse-differs", "not-known", "drop", "confirm-on-site", "reading-out"]);
        let about = rng.pick(&["F2", "board", "Item 0.0", "battery"]);
        let says = "Looked at, and it stays.".into();
        survey.settled.push(Settled { code: code.into(), about: about.into(), says, by: None });
    }
}

fn load(rng: &mut Rng, n: usize) -> SurveyLoad {
    SurveyLoad {
        name: format!("Load {n}"),
        standby: maybe(rng, |rng| milliamps(rng.pick(&[0, 30, 200]))),
        alarm: maybe(rng, |rng| milliamps(rng.pick(&[0, 30, 200]))),
    }
}

fn battery(rng: &mut Rng) -> OldBattery {
    let load = LoadTest {
        current: maybe(rng, |_| milliamps(500)),
        after: maybe(rng, |_| hours(1)),
        volts: maybe(rng, |rng| volts(rng.pick(&[98, 115, 121]))),
    };
    OldBattery {
        capacity: maybe(rng, |rng| amp_hours(rng.pick(&[21, 70]))),
        made: maybe(rng, |rng| (rng.pick(&[2015, 2024]), 4)),
        state: maybe(rng, |rng| rng.pick(&[BatteryState::Sound, BatteryState::Swollen, BatteryState::Leaking])),
        rest: maybe(rng, |rng| volts(rng.pick(&[118, 128, 131]))),
        rested: maybe(rng, |_| hours(8)),
        mains_off: maybe(rng, |rng| rng.pick(&[MainsOff::StaysUp, MainsOff::DropsOut])),
        load: rng.chance(50).then_some(load),
    }
}

/// Loops measured on pairs of cores, alternating volts on a cable now and then.
fn measured(rng: &mut Rng, site: &mut Site) {
    for cable in &mut site.survey.cables {
        if rng.chance(10) {
            cable.ac = Some(volts(rng.pick(&[2, 120, 2300])));
        }
        if let ([one, two, ..], true) = (cable.cores.as_slice(), rng.chance(15)) {
            let ohms = maybe(rng, |rng| ohms(rng.pick(&[1, 4, 40])));
            cable.measured.push(wirelore::model::Measured { cores: (one.colour.clone(), two.colour.clone()), ohms });
        }
    }
}
