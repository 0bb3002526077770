//! Volts at the far end (5.2).

use super::build::{Site, detector, fed, metres, near, q, sounder, two_wire, volts, window};
use wirelore::model::{Conductor, Device, Fact, Fires};

/// 12 m of 80 Ω/km carry 18 mA out and back.
#[test]
fn a_detectors_own_line() {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "12 m");
    site.feed(&[item], 1, 1);
    let row = &site.figures().drops[0];
    near(row.mains.value, 13.7 - 0.036 * 0.08 * 12.0);
    near(row.battery_end.value, 10.5 - 0.036 * 0.08 * 12.0);
    assert_eq!((row.needs_low, row.needs_high, row.ok), (Some(9.0), Some(16.0), Some(true)));
    assert_eq!((row.positive_cores, row.negative_cores, row.tamper_lift), (1, 1, None));
}

/// The board's own supply loses its drop first.
#[test]
fn the_supplys_drop_comes_off() {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "0 m");
    site.feed(&[item], 1, 1);
    site.board.supplies[0].drop = q("0.2 V");
    near(site.figures().drops[0].mains.value, 13.5);
}

/// An external sounder's lowest line is the one through its siren's trigger core: I₊ = 20 + 350 + 120 mA, i = 350 mA.
#[test]
fn a_sounders_lowest_line_is_its_trigger() {
    let mut site = Site::new();
    let item = site.add("Front", sounder(), "15 m");
    site.feed(&[item], 1, 1);
    let row = &site.figures().drops[0];
    near(row.mains.value, 13.7 - (0.49 + 0.35) * 0.08 * 15.0);
    assert!(row.mains.formula.contains('i'), "{}", row.mains.formula);
}

/// With enough positive cores the sounder's own supply becomes the lowest line when its negative carries others.
#[test]
fn others_on_the_pair_count() {
    let mut site = Site::new();
    let a = site.add("A", Device { supply: fed(0.1, 0.3), ..detector() }, "10 m");
    let mut b = sounder();
    b.triggers.truncate(1);
    b.triggers[0].current = super::build::amps(0.1);
    let b = site.add("B", b, "10 m");
    site.items[b].cable = a;
    site.feed(&[a, b], 2, 1);
    let figures = site.figures();
    // I₊ = 0.3 + 0.02 + 0.1, I₋ = 0.3 + 0.02.
    near(figures.drops[1].mains.value, 13.7 - (0.42 / 2.0 + 0.32) * 0.08 * 10.0);
    assert_eq!(figures.drops[1].cable, a);
}

/// A trigger that fires by removal draws through the pair: on both sides, and through no core of its own.
#[test]
fn a_removed_triggers_current_is_its_own() {
    let mut site = Site::new();
    let mut device = sounder();
    device.triggers = vec![super::build::trigger("siren", Fires::NegativeRemoved, 0.3)];
    let item = site.add("Front", device, "10 m");
    site.feed(&[item], 1, 1);
    near(site.figures().drops[0].mains.value, 13.7 - 2.0 * 0.32 * 0.08 * 10.0);
}

/// A two-wire sounder has one feed core, and its own window.
#[test]
fn two_wire_sounders_both_ways() {
    for (fires, positive, negative) in [(Fires::NegativeApplied, 1, 0), (Fires::PositiveApplied, 0, 1)] {
        let mut site = Site::new();
        let item = site.add("Kitchen", two_wire(fires, 0.2), "10 m");
        site.feed(&[item], positive, negative);
        let row = &site.figures().drops[0];
        near(row.mains.value, 13.7 - 0.4 * 0.08 * 10.0);
        assert_eq!((row.needs_low, row.needs_high), (Some(9.0), Some(15.0)));
    }
}

/// The cable's longest length counts, and its warmth.
#[test]
fn the_longest_length_at_the_surveys_temperature() {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "1 m");
    site.feed(&[item], 1, 1);
    site.survey.cables[0].length = metres(10.0, 20.0);
    site.survey.temperature = q("40 C");
    near(site.figures().drops[0].mains.value, 13.7 - 0.036 * 0.08 * (1.0 + 0.003_93 * 20.0) * 20.0);
}

/// Too high on mains is as wrong as too low on battery; exactly at either end is right.
#[test]
fn both_ends_of_the_window_count() {
    let ok = |low: &str, high: &str| {
        let mut site = Site::new();
        let mut device = detector();
        if let Fact::Is(supply) = &mut device.supply {
            supply.volts = window(low, high);
        }
        let item = site.add("Hall", device, "0 m");
        site.feed(&[item], 1, 1);
        site.figures().drops[0].ok
    };
    assert_eq!(ok("10.5 V", "13.7 V"), Some(true));
    assert_eq!(ok("10.6 V", "13.7 V"), Some(false));
    assert_eq!(ok("10.5 V", "13.6 V"), Some(false));
}

/// A card that gives a cutoff above its volts on mains: the lower is the one on mains.
#[test]
fn the_lower_of_the_two_counts() {
    let ok = |mains: f64, cutoff: f64| {
        let mut site = Site::new();
        let item = site.add("Hall", detector(), "0 m");
        site.feed(&[item], 1, 1);
        site.block().volts = volts(mains);
        site.block().cutoff = volts(cutoff);
        site.figures().drops[0].ok
    };
    assert_eq!(ok(8.0, 12.0), Some(false));
    assert_eq!(ok(12.0, 17.0), Some(false));
    assert_eq!(ok(9.0, 16.0), Some(true));
}

/// 10.5 V is taken, and said to be assumed, where the card gives no cutoff.
#[test]
fn a_cutoff_that_is_not_given_is_assumed() {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "0 m");
    site.feed(&[item], 1, 1);
    site.block().cutoff = None;
    let end = &site.figures().drops[0].battery_end;
    near(end.value, 10.5);
    assert!(end.given.iter().any(|g| g.symbol == "Vs" && g.text == "10.5 V" && g.origin.contains("assumed")));
}

/// Whatever is not known leaves the volts, and whether they are right, not known.
#[test]
fn unknown_figures_leave_it_unknown() {
    let spoil: [fn(&mut Site); 5] = [
        |site| site.survey.power = None,
        |site| site.block().volts = None,
        |site| site.cable.conductor = None,
        |site| site.survey.cables[0].length = None,
        |site| {
            let device = site.devices.get_mut("motion-detector").expect("added");
            device.supply = Fact::Is(wirelore::model::DeviceSupply { volts: None, standby: None, alarm: None });
        },
    ];
    for (case, spoil) in spoil.into_iter().enumerate() {
        let mut site = Site::new();
        let item = site.add("Hall", detector(), "10 m");
        site.feed(&[item], 1, 1);
        spoil(&mut site);
        let row = &site.figures().drops[0];
        assert_eq!((row.mains.value, row.ok), (None, None), "case {case}");
        assert!(row.mains.given.iter().any(|g| g.text == "not known"), "case {case}");
    }
}

/// A one-core tamper is lifted by what the negative carries in alarm.
#[test]
fn the_negative_lifts_a_one_core_tamper() {
    let mut site = Site::new();
    let mut device = sounder();
    device.triggers = vec![super::build::trigger("siren", Fires::PositiveApplied, 0.4)];
    let item = site.add("Front", device, "20 m");
    site.feed(&[item], 1, 2);
    site.wire(&[item], wirelore::model::Wiring::ClosedLoop, true);
    near(site.figures().drops[0].tamper_lift, 0.42 * 0.08 * 20.0 / 2.0);
    site.loops.clear();
    assert_eq!(site.figures().drops[0].tamper_lift, None);
}

/// Nothing feeds a plain contact: it has no row.
#[test]
fn only_what_is_fed_has_a_row() {
    let mut site = Site::new();
    site.add("Door", super::build::door(), "10 m");
    assert!(site.figures().drops.is_empty());
}

/// Copper by its strands, and by its area.
#[test]
fn conductors_by_strands_and_by_area() {
    let drop = |conductor: Conductor| {
        let mut site = Site::new();
        let item = site.add("Hall", detector(), "100 m");
        site.feed(&[item], 1, 1);
        site.cable.conductor = Some(conductor);
        site.block().volts = volts(12.0);
        site.figures().drops[0].mains.value
    };
    let area = 7.0 * std::f64::consts::PI * 0.2 * 0.2 / 4.0;
    near(drop(Conductor::Strands { count: 7, diameter: q("0.2 mm") }), 12.0 - 0.036 * 0.017_241 / area * 100.0);
    near(drop(Conductor::Area(q("0.22 mm2"))), 12.0 - 0.036 * 0.017_241 / 0.22 * 100.0);
    assert_eq!(drop(Conductor::Area(q("0 mm2"))), None);
}
