//! Whole packs of random sites at the limits of what cards and surveys can say: every number is one, and every figure
//! shows how it was worked out.

use super::limits::all_finite;
use crate::pages::demo::library;
use crate::sites::{Knobs, Site};
use proptest::prelude::*;
use serde_json::Value;
use wirelore::choose::choose;
use wirelore::judge::judge;
use wirelore::land::land;
use wirelore::model::{Bands, Fact, Rules};
use wirelore::pack::figure::Figure;
use wirelore::pack::{View, json, view};
use wirelore::units::{AmpHours, Amps, Celsius, Metres, Percent, Window};
use wirelore::work::work;

/// How far a site is pushed.
#[derive(Debug, Clone)]
struct Push {
    /// What lengths are multiplied by.
    length: f64,
    /// What devices draw.
    amps: f64,
    /// The resistors' tolerance.
    tolerance: Option<f64>,
    /// Degrees Celsius.
    celsius: f64,
    /// The battery that goes in.
    battery: Option<f64>,
    /// What the panel draws and charges with.
    panel: Option<f64>,
}

fn push() -> impl Strategy<Value = Push> {
    let battery = prop::sample::select(vec![None, Some(0.0), Some(7.0), Some(1e12)]);
    let panel = prop::sample::select(vec![None, Some(0.0), Some(0.3), Some(1e12)]);
    let amps = prop::sample::select(vec![0.0, 1e-12, 0.02, 1e12]);
    let tolerance = prop::sample::select(vec![None, Some(0.0), Some(0.2), Some(2.0)]);
    let celsius = prop::sample::select(vec![-273.15, -40.0, 20.0, 80.0, 1e12]);
    let length = prop::sample::select(vec![0.0, 1.0, 1e9]);
    (length, amps, tolerance, celsius, battery, panel).prop_map(|(length, amps, tolerance, celsius, battery, panel)| {
        Push { length, amps, tolerance, celsius, battery, panel }
    })
}

/// What the demo library gives a random site: bands, rules with their grades.
fn lent() -> (Bands, Rules) {
    let (library, _) = library();
    (library.boards["fennick-f8"].bands.clone(), library.rules["en-50131"].clone())
}

/// Pushes a site.
fn pushed(mut site: Site, push: &Push) -> Site {
    let (bands, rules) = lent();
    for board in site.library.boards.values_mut() {
        board.bands = bands.clone();
        board.eol.tolerance = push.tolerance.and_then(Percent::new);
    }
    for panel in site.library.panels.values_mut() {
        if let Fact::Is(block) = &mut panel.unit.power {
            block.own = push.panel.and_then(Amps::new);
            block.charge = push.panel.and_then(Amps::new);
        }
    }
    for device in site.library.devices.values_mut() {
        if let Fact::Is(supply) = &mut device.supply {
            (supply.standby, supply.alarm) = (Amps::new(push.amps), Amps::new(push.amps));
        }
    }
    for cable in &mut site.survey.cables {
        let longer = |metres: Metres| Metres::new(metres.get() * push.length);
        cable.length = cable.length.and_then(|l| Some(Window { low: longer(l.low)?, high: longer(l.high)? }));
    }
    site.library.rules.insert(site.survey.rules.clone(), rules);
    site.survey.grade = Some("2".into());
    site.survey.temperature = Celsius::new(push.celsius).expect("finite");
    site.survey.new_battery = push.battery.and_then(AmpHours::new);
    site
}

/// The view of a site, its figures looked at on the way.
fn view_of(site: &Site) -> View {
    let job = site.job();
    let plan = land(&job, choose(&job));
    let figures = work(&job, &plan);
    all_finite(&figures);
    let judgement = judge(&job, &plan, &figures);
    view(&job, &plan, &figures, &judgement, None)
}

/// Every figure of the electrical tables and of the battery.
fn figures(view: &View) -> Vec<&Figure> {
    let e = &view.electrics;
    let drops = e.drops.iter().flat_map(|d| [&d.mains, &d.battery_end, &d.needs_low, &d.needs_high]);
    let loading = e.loading.iter().flat_map(|l| [&l.standby, &l.alarm, &l.limit, &l.alarm_limit]);
    let loops = e.loops.iter().flat_map(|l| &l.states).flat_map(|s| [&s.ohms, &s.low, &s.high]);
    let b = &view.battery;
    let battery = [&b.standby, &b.alarm, &b.required, &b.fitted, &b.smallest_enough, &b.recharge, &b.recharge_limit];
    drops.chain(loading).chain(loops).chain(battery).collect()
}

/// Asserts that every number of a JSON value is finite, and that no text of it is a number that is none.
fn sound(value: &Value) {
    match value {
        Value::Number(number) => assert!(number.as_f64().is_some_and(f64::is_finite), "{number}"),
        Value::String(text) => {
            let mut words = text.split(|c: char| !c.is_alphanumeric());
            assert!(!words.any(|word| matches!(word, "NaN" | "inf" | "infinity")), "{text}");
        }
        Value::Array(list) => list.iter().for_each(sound),
        Value::Object(map) => map.values().for_each(sound),
        Value::Null | Value::Bool(_) => {}
    }
}

/// Asserts that the figure under each key has its formula beside it.
#[track_caller]
fn has_ways(row: &Value, keys: &[&str]) {
    for key in keys {
        let way = &row["why"][key];
        assert!(way["formula"].as_str().is_some_and(|formula| !formula.is_empty()), "{key}: {row}");
        assert!(way["given"].is_array(), "{key}: {row}");
    }
}

/// Asserts that every figure of a pack has its formula.
fn explained(pack: &Value) {
    let rows = |value: &Value| value.as_array().expect("a list").clone();
    for row in rows(&pack["electrics"]["drop"]) {
        has_ways(&row, &["mains_v", "battery_end_v"]);
    }
    for row in rows(&pack["electrics"]["loading"]) {
        has_ways(&row, &["standby_a", "alarm_a"]);
    }
    for state in rows(&pack["electrics"]["loops"]).iter().flat_map(|row| rows(&row["states"])) {
        if state["open"] == false {
            has_ways(&state, &["ohms"]);
        }
    }
    has_ways(&pack["battery"], &["standby_a", "alarm_a", "required_ah", "smallest_enough_ah", "recharge_h"]);
}

fn pack_of(view: &View) -> Value {
    let bytes = json(view).expect("a view is JSON");
    serde_json::from_slice(&bytes).expect("it reads back")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// JSON can't hold a number that is none: it would become null. So the view's own numbers are looked at too.
    #[test]
    fn every_number_of_a_random_pack_is_one(number in 0_u64..100_000, push in push()) {
        let view = view_of(&pushed(Site::new(number, &Knobs::hard(2, 12)), &push));
        for figure in figures(&view) {
            prop_assert!(figure.value.is_none_or(f64::is_finite), "{figure:?}");
            prop_assert_eq!(figure.text.is_empty(), false);
        }
        let pack = pack_of(&view);
        sound(&pack);
        explained(&pack);
    }
}

/// The shares of the items on a pair add up to what its sides carry, in every demo pack.
#[test]
fn the_shares_of_a_side_add_up() {
    let amps = |text: &str| match text.split_once(' ') {
        Some((number, "A")) => number.parse::<f64>().ok(),
        Some((number, "mA")) => number.parse::<f64>().ok().map(|n| n / 1000.0),
        _ => None,
    };
    let mut seen = 0;
    let (library, surveys) = library();
    for survey in &surveys {
        let pack = pack_of(&crate::pages::demo::view_of(&library, survey));
        for row in pack["electrics"]["drop"].as_array().expect("a list") {
            let given = row["why"]["mains_v"]["given"].as_array().expect("numbers");
            let of = |wanted: &dyn Fn(&str) -> bool| -> Option<f64> {
                let these = given.iter().filter(|g| g["symbol"].as_str().is_some_and(wanted));
                these.map(|g| amps(g["value"].as_str().unwrap_or_default())).sum()
            };
            for sign in ["I+", "I-"] {
                let total = of(&|symbol| symbol == sign);
                let shares = of(&|symbol| symbol.starts_with(&format!("{sign}(")));
                let (Some(total), Some(shares)) = (total, shares) else { continue };
                assert!((total - shares).abs() < 1e-3, "{total} {shares}: {row}");
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "only {seen} sides");
}

/// A length that was worked from a measured loop says from which reading.
#[test]
fn a_worked_length_says_from_which_reading() {
    let (library, surveys) = library();
    let packs: Vec<String> =
        surveys.iter().map(|survey| pack_of(&crate::pages::demo::view_of(&library, survey)).to_string()).collect();
    assert!(packs.iter().any(|pack| pack.contains("(ohms - s)/(2·r): the survey measured ")));
}
