//! What the standby battery must hold (5.5).

use super::build::{Site, amps, detector, hours, load, near, q, sounder};
use wirelore::model::{Fact, OldBattery};
use wirelore::units::AmpHours;

/// One phase by hand.
fn phase(amps: f64, time: f64, capacity: f64) -> f64 {
    amps * time * (amps * 20.0 / capacity).powf(0.15).max(1.0)
}

/// Required by hand at 20 °C, where the straight line from 0.85 at 0 °C to 1.0 at 25 °C gives 0.97.
fn required(standby: f64, alarm: f64, capacity: f64) -> f64 {
    (phase(standby, 12.0, capacity) + phase(alarm, 0.25, capacity)) * 1.25 / 0.97
}

/// A detector and a sounder.
fn house() -> Site {
    let mut site = Site::new();
    let hall = site.add("Hall", detector(), "10 m");
    let front = site.add("Front", sounder(), "15 m");
    site.feed(&[hall], 1, 1);
    site.feed(&[front], 1, 1);
    site.survey.loads = vec![load("Router", 0.1, 0.1)];
    site
}

#[test]
fn all_of_it_by_hand() {
    let battery = house().figures().battery;
    let (standby, alarm) = (0.06 + 0.14 + 0.1 + 0.032, 0.06 + 0.18 + 0.1 + 0.508);
    near(battery.standby.value, standby);
    near(battery.alarm.value, alarm);
    assert_eq!((battery.standby_hours, battery.alarm_hours), (Some(12.0), Some(0.25)));
    near(battery.required.value, required(standby, alarm, 7.0));
    assert_eq!((battery.fitted_ah, battery.enough), (Some(7.0), Some(true)));
    assert_eq!(battery.smallest_enough.value, Some(7.0));
    near(battery.recharge.value, 0.8 * 7.0 / (0.9 * 0.3));
    assert_eq!(battery.recharge_limit_hours, Some(72.0));
}

/// A mains failure that is signalled away asks for the other standby time.
#[test]
fn a_reported_mains_failure() {
    let mut site = house();
    site.survey.mains_fail_reported = true;
    assert_eq!(site.figures().battery.standby_hours, Some(6.0));
    site.rules.grades[0].standby_reported = None;
    let battery = site.figures().battery;
    assert_eq!((battery.standby_hours, battery.required.value, battery.enough), (None, None, None));
}

/// The new battery counts, else the one that is there; without a capacity nothing that rests on it is known, but what
/// would be enough is.
#[test]
fn the_capacity_that_counts() {
    let mut site = house();
    site.survey.battery = Fact::Is(OldBattery { capacity: Some(q("2.1 Ah")), ..OldBattery::default() });
    assert_eq!(site.figures().battery.fitted_ah, Some(7.0));
    site.survey.new_battery = None;
    let battery = site.figures().battery;
    assert_eq!((battery.fitted_ah, battery.enough), (Some(2.1), Some(false)));
    near(battery.required.value, required(0.332, 0.848, 2.1));
    for unknown in [Fact::NotKnown, Fact::Absent, Fact::Is(OldBattery::default())] {
        site.survey.battery = unknown;
        let battery = site.figures().battery;
        assert_eq!((battery.fitted_ah, battery.required.value, battery.enough), (None, None, None));
        assert_eq!(battery.recharge.value, None);
        assert_eq!(battery.smallest_enough.value, Some(7.0));
    }
}

/// Each capacity that the source takes is worked for itself; the smallest that does is named, or none.
#[test]
fn the_smallest_that_is_enough() {
    let mut site = Site::new();
    site.block().own = amps(0.0);
    site.survey.loads = vec![load("Router", 1.2, 1.2)];
    assert_eq!(site.figures().battery.smallest_enough.value, None);
    site.survey.loads = vec![load("Router", 0.6, 0.6)];
    assert_eq!(site.figures().battery.smallest_enough.value, Some(17.0));
    site.block().battery = Fact::Absent;
    assert_eq!(site.figures().battery.smallest_enough.value, None);
}

/// A battery that is exactly enough is enough, though the sum's last bit is over: 0.1 A and 0.2 A come to
/// 0.30000000000000004 A.
#[test]
fn exactly_enough() {
    let mut site = Site::new();
    site.rules.peukert = Some(1.0);
    site.rules.ageing = Some(1.0);
    site.rules.temperature.retain(|point| (point.factor - 1.0).abs() < 1e-12);
    site.board.feed = Some(wirelore::model::Feed { standby: amps(0.1), alarm: amps(0.1), ..Default::default() });
    site.block().own = amps(0.2);
    site.rules.grades[0].standby = hours(10.0);
    site.rules.grades[0].alarm = hours(0.0);
    site.survey.new_battery = Some(q("3 Ah"));
    assert_eq!(site.figures().battery.enough, Some(true));
    site.survey.new_battery = AmpHours::new(2.999_999);
    assert_eq!(site.figures().battery.enough, Some(false));
}

/// Colder, and the same battery must be larger; outside the table it stays as at its end.
#[test]
fn the_cold_takes_its_share() {
    let at = |celsius: &str| {
        let mut site = house();
        site.survey.temperature = q(celsius);
        site.figures().battery.required.value.expect("known")
    };
    assert!((at("0 C") * 0.85 - at("25 C")).abs() < 1e-9);
    assert!((at("-40 C") * 0.65 - at("25 C")).abs() < 1e-9);
    assert!((at("80 C") * 1.02 - at("25 C")).abs() < 1e-9);
}

/// Whatever of the rules or of the source is not known leaves it not known.
#[test]
fn unknown_figures_leave_it_unknown() {
    let spoil: [fn(&mut Site); 8] = [
        |site| site.rules.ageing = None,
        |site| site.rules.peukert = None,
        |site| site.rules.temperature = vec![],
        |site| site.rules.grades[0].alarm = None,
        |site| site.survey.grade = None,
        |site| site.survey.power = None,
        |site| site.block().own = None,
        |site| site.board.feed = None,
    ];
    for (case, spoil) in spoil.into_iter().enumerate() {
        let mut site = house();
        spoil(&mut site);
        let battery = site.figures().battery;
        assert_eq!((battery.required.value, battery.enough), (None, None), "case {case}");
        assert_eq!(battery.smallest_enough.value, None, "case {case}");
        assert!(battery.required.given.iter().any(|g| g.text == "not known"), "case {case}");
    }
}

/// A charger of nothing, or of which nobody knows, never brings it back in a known time.
#[test]
fn a_charger_that_is_not_known() {
    for charge in [None, amps(0.0)] {
        let mut site = house();
        site.block().charge = charge;
        assert_eq!(site.figures().battery.recharge.value, None);
    }
}
