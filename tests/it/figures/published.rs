//! Figures that others have published, each with its source beside it.

use super::build::{Site, amps, detector, fed, hours, load, near, q};
use wirelore::formula::{battery, copper, drop};
use wirelore::model::{Conductor, Device, TemperaturePoint};
use wirelore::units::Celsius;

/// Ohms of one kilometre of this cross-section at 20 °C.
fn per_km(area: f64) -> f64 {
    copper::per_metre_of_area(area).expect("an area") * 1000.0
}

/// The greatest resistance that IEC 60228 lets a plain copper conductor have (classes 1 and 2) is never under what
/// its nominal cross-section gives, and never a tenth above it.
#[test]
fn copper_is_within_the_table_of_iec_60228() {
    for (area, greatest) in [(0.5, 36.0), (0.75, 24.5), (1.0, 18.1), (1.5, 12.1), (2.5, 7.41)] {
        let ours = per_km(area);
        assert!(ours <= greatest && ours > 0.9 * greatest, "{area} mm²: {ours} against {greatest}");
    }
}

/// ASTM B258: the diameter of a gauge, and the published resistance of a kilometre.
#[test]
fn gauges_of_astm_b258_have_their_published_resistance() {
    for (gauge, published) in [(18.0, 21.0), (20.0, 33.3), (22.0, 53.0), (23.0, 66.8), (24.0, 84.2), (26.0, 134.0)] {
        let diameter = 0.127 * 92.0_f64.powf((36.0 - gauge) / 39.0);
        let ours = per_km(copper::area_of_strands(1, diameter));
        assert!((ours / published - 1.0).abs() < 0.005, "AWG {gauge}: {ours} against {published}");
    }
}

/// 7/0.2 mm: 0.2199 mm² and 78.4 Ω/km by IEC 60028; data sheets say 80 to 85 Ω/km, laying included.
#[test]
fn seven_strands_of_two_tenths() {
    let area = copper::area_of_strands(7, 0.2);
    assert!((area - 0.2199).abs() < 5e-5);
    assert!((per_km(area) - 78.4).abs() < 0.05);
}

/// IEC 60028: α = 0.00393 for each kelvin from 20 °C.
#[test]
fn copper_grows_by_its_coefficient() {
    assert!((copper::at_temperature(1.0, 120.0) - 1.393).abs() < 1e-12);
    assert!((copper::at_temperature(1.0, 20.0) - 1.0).abs() < 1e-12);
}

/// A public tutorial: 20 m of 1.3 mm² at ρ 0.01785, 1 A, there and back, take 0.549 V.
#[test]
fn the_tutorials_drop() {
    let left = drop::volts_left(12.0, 2.0, 0.01785 / 1.3, 20.0);
    assert!((12.0 - left - 0.549).abs() < 0.0005);
    let mut site = one_detector(1.0, 20.0);
    site.cable.conductor = Some(Conductor::OhmsPerKm(q(&format!("{} Ω", 0.01785 / 1.3 * 1000.0))));
    let row = &site.figures().drops[0];
    assert!(row.mains.value.is_some_and(|v| (13.7 - v - 0.549).abs() < 0.0005));
}

/// One device of this alarm current at the end of this length.
fn one_detector(current: f64, length: f64) -> Site {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(current, current), ..detector() }, &format!("{length} m"));
    site.feed(&[item], 1, 1);
    site
}

/// A budget of 1 V at the battery's end (10.5 V to 9.5 V) on 0.16 Ω/m of loop: 208 m at 30 mA, 69 m at 90 mA.
#[test]
fn the_one_volt_budget_sets_the_length() {
    for (current, reaches) in [(0.03, 208.0), (0.09, 69.0)] {
        let ok = |length: f64| {
            let mut site = one_detector(current, length);
            let device = site.devices.get_mut("motion-detector").expect("it was added");
            if let wirelore::model::Fact::Is(supply) = &mut device.supply {
                supply.volts = super::build::window("9.5 V", "16 V");
            }
            site.figures().drops[0].ok
        };
        assert_eq!(ok(reaches), Some(true), "{current} A at {reaches} m");
        assert_eq!(ok(reaches + 1.0), Some(false), "{current} A a metre further");
    }
}

/// Doubling both sides of a pair halves what it takes.
#[test]
fn doubling_halves_the_drop() {
    let mut site = one_detector(0.5, 30.0);
    let single = site.figures().drops[0].mains.value.map(|v| 13.7 - v);
    site.pairs.clear();
    site.feed(&[0], 2, 2);
    let double = site.figures().drops[0].mains.value.map(|v| 13.7 - v);
    near(double, single.expect("known") / 2.0);
}

/// A battery worked as the worksheets of NFPA 72 do: no exponent, no effect of temperature.
fn worksheet(standby: f64, alarm: f64, alarm_minutes: f64, ageing: f64) -> Site {
    let mut site = Site::new();
    site.block().own = amps(0.0);
    site.board.feed = Some(wirelore::model::Feed { standby: amps(0.0), alarm: amps(0.0), ..Default::default() });
    site.survey.loads = vec![load("All of it", standby, alarm)];
    site.rules.peukert = Some(1.0);
    site.rules.ageing = Some(ageing);
    site.rules.temperature = vec![TemperaturePoint { at: q::<Celsius>("20 C"), factor: 1.0 }];
    site.rules.grades[0].standby = hours(24.0);
    site.rules.grades[0].alarm = hours(alarm_minutes / 60.0);
    site
}

/// A public fire-alarm battery guide, NFPA 72 form: 0.42 A for 24 h and 3.8 A for 5 min are 10.397 Ah; with a fifth
/// on top 12.48 Ah. A study guide: 0.25 A and 1.5 A are 6.125 Ah.
#[test]
fn the_worksheets_of_nfpa_72() {
    let required = |site: Site| site.figures().battery.required.value.expect("known");
    assert!((required(worksheet(0.42, 3.8, 5.0, 1.0)) - 10.397).abs() < 0.0005);
    assert!((required(worksheet(0.42, 3.8, 5.0, 1.2)) - 12.48).abs() < 0.005);
    assert!((required(worksheet(0.25, 1.5, 5.0, 1.0)) - 6.125).abs() < 0.0005);
}

/// BS 5839-1 Annex E, `1.25·(T1·I1 + D·I2/2)`: 0.25 A for 24 h and 0.75 A need 7.97 Ah with D = 1 and 8.32 Ah with
/// D = 1.75. Ours, by Peukert's exponent, comes out between.
#[test]
fn within_the_bracket_of_bs_5839() {
    let mut site = worksheet(0.25, 0.75, 30.0, 1.25);
    site.rules.peukert = Some(1.15);
    site.survey.new_battery = wirelore::units::AmpHours::new(8.32);
    let (least, most): (f64, f64) = (1.25 * (24.0 * 0.25 + 0.75 / 2.0), 1.25 * (24.0 * 0.25 + 1.75 * 0.75 / 2.0));
    assert!((most - 8.32).abs() < 0.005);
    let ours = site.figures().battery.required.value.expect("known");
    assert!(least < ours && ours < most, "{ours} is not between {least} and {most}");
}

/// A data sheet's discharge currents of a 7.5 Ah battery to 10.5 V. Exponents of 1.09 to 1.22 explain each row: with
/// the one a row takes no more than the battery holds, with the other no less.
#[test]
fn the_exponent_explains_a_data_sheet() {
    let capacity = 20.0 * 0.379;
    for (time, current) in [(10.0, 0.716), (8.0, 0.874), (5.0, 1.28), (3.0, 1.91), (2.0, 2.52), (1.0, 4.42)] {
        let taken = |k: f64| battery::phase(current, time, capacity, k).expect("known");
        assert!(taken(1.09) < 1.01 * capacity && taken(1.22) > 0.99 * capacity, "{time} h: {capacity}");
    }
}

/// Pages that put a 20-hour rating into `t = C / I^k` give 100 Ah at 5 A less than 20 h, which the rating denies.
#[test]
fn a_hundred_ampere_hours_at_five_amperes_last_twenty_hours() {
    near(battery::phase(5.0, 20.0, 100.0, 1.15), 100.0);
    assert!(100.0 / 5.0_f64.powf(1.15) < 16.0);
}
