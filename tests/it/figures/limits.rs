//! At the limits of what a card can say, figures are defined or not known: never infinite, never not a number.

use super::build::{Site, amps, detector, fed, load, metres, percent, q, sounder, volts};
use wirelore::model::{Conductor, Device, Fact, OldBattery, Wiring};
use wirelore::units::{AmpHours, Ohms};
use wirelore::work::Figures;

/// Every number of some figures.
fn numbers(figures: &Figures) -> Vec<f64> {
    let mut all: Vec<Option<f64>> = Vec::new();
    for row in &figures.drops {
        all.extend([row.mains.value, row.battery_end.value, row.tamper_lift]);
    }
    for row in &figures.loading {
        all.extend([row.standby.value, row.alarm.value, row.limit, row.alarm_limit]);
    }
    for state in figures.loops.iter().flat_map(|l| &l.states) {
        all.extend([state.ohms.value, state.low, state.high]);
    }
    let battery = &figures.battery;
    all.extend([battery.standby.value, battery.alarm.value, battery.required.value, battery.fitted_ah]);
    all.extend([battery.recharge.value, battery.smallest_enough.value]);
    all.into_iter().flatten().collect()
}

/// A detector on two resistors and a sounder with a one-core tamper.
pub(super) fn house() -> Site {
    let mut site = Site::new();
    let hall = site.add("Hall", detector(), "10 m");
    let front = site.add("Front", sounder(), "15 m");
    site.feed(&[hall], 1, 1);
    site.feed(&[front], 1, 1);
    site.fire(front, 0, 0);
    site.fire(front, 1, 0);
    site.wire(&[hall], Wiring::DoubleEol, false);
    site.wire(&[front], Wiring::ClosedLoop, true);
    site
}

/// Asserts that every number is one, and none a zero with a minus sign.
#[track_caller]
pub(super) fn all_finite(figures: &Figures) {
    for number in numbers(figures) {
        assert!(number.is_finite() && !(number == 0.0 && number.is_sign_negative()), "{number}");
    }
}

/// The same, of a site.
#[track_caller]
pub(super) fn defined(site: &Site) {
    all_finite(&site.figures());
}

#[test]
fn cables_of_no_length_and_of_a_million_kilometres() {
    for length in [0.0, 1e-9, 1e9] {
        let mut site = house();
        site.survey.cables[0].length = metres(length, length);
        defined(&site);
    }
}

#[test]
fn currents_of_nothing_and_of_a_million_million_amperes() {
    for current in [0.0, 1e12] {
        let mut site = house();
        site.devices.insert("motion-detector".into(), Device { supply: fed(current, current), ..detector() });
        site.survey.loads = vec![load("Router", current, current)];
        site.block().own = amps(current);
        defined(&site);
    }
}

#[test]
fn tolerances_of_nothing_twenty_and_two_hundred_per_cent() {
    for tolerance in [0.0, 20.0, 200.0] {
        let mut site = house();
        site.board.eol.tolerance = percent(tolerance);
        defined(&site);
        let low = site.figures().loops[0].states[0].low;
        assert!(low.is_some_and(|ohms| ohms >= 0.0), "{tolerance} %: {low:?}");
    }
}

#[test]
fn from_bitter_cold_to_an_oven() {
    for celsius in ["-273.15 C", "-40 C", "0 C", "80 C", "100000 C"] {
        let mut site = house();
        site.survey.temperature = q(celsius);
        defined(&site);
    }
}

#[test]
fn batteries_and_rules_of_nothing() {
    for capacity in [0.0, 1e-12, 1e12] {
        let mut site = house();
        site.survey.new_battery = AmpHours::new(capacity);
        site.block().charge = amps(0.0);
        defined(&site);
    }
    for (peukert, ageing, factor) in [(0.0, 0.0, 0.0), (1e9, 1.0, 1.0), (-1e9, 1e300, 1e-300), (1.0, 1.0, 0.0)] {
        let mut site = house();
        site.rules.peukert = Some(peukert);
        site.rules.ageing = Some(ageing);
        for point in &mut site.rules.temperature {
            point.factor = factor;
        }
        defined(&site);
    }
}

#[test]
fn wires_of_nothing() {
    for conductor in [
        Conductor::OhmsPerKm(q("0 Ω")),
        Conductor::OhmsPerKm(q("1000000 MΩ")),
        Conductor::Area(q("0 mm2")),
        Conductor::Strands { count: 0, diameter: q("0 mm") },
    ] {
        let mut site = house();
        site.cable.conductor = Some(conductor);
        defined(&site);
    }
}

#[test]
fn resistors_of_nothing() {
    let mut site = house();
    site.board.eol.double = Ohms::new(0.0).map(|ohms| wirelore::model::DoubleEol { end: ohms, alarm: ohms });
    site.devices.get_mut("motion-detector").expect("added").alarm = super::build::contact("0 Ω", None);
    defined(&site);
}

#[test]
fn nothing_at_all() {
    let mut site = Site::new();
    site.board = wirelore::model::Board::default();
    site.panel = wirelore::model::Panel::default();
    site.survey.battery = Fact::Is(OldBattery { rest: volts(-5.0), ..OldBattery::default() });
    defined(&site);
    assert_eq!(site.figures().loading.len(), 1);
}
