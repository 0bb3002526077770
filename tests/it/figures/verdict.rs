//! The verdict on the battery that is there (5.5): each limit from both sides.

use super::build::{Site, amps, hours, q, volts};
use jiff::civil::date;
use wirelore::model::{BatteryState, Fact, LoadTest, MainsOff, OldBattery};
use wirelore::work::Verdict::{self, Good, Replace, Untested, Watch};

/// A 7 Ah battery, three years old, at 12.8 V, which read 12.1 V under 0.5 A after 10 min.
fn sound() -> OldBattery {
    OldBattery {
        capacity: Some(q("7 Ah")),
        made: Some((2023, 11)),
        state: Some(BatteryState::Sound),
        rest: Some(q("12.8 V")),
        rested: Some(q("8 h")),
        mains_off: Some(MainsOff::StaysUp),
        load: Some(LoadTest { current: Some(q("0.5 A")), after: Some(q("10 min")), volts: Some(q("12.1 V")) }),
    }
}

/// The verdict on a battery on 3 November 2026.
fn on(battery: Fact<OldBattery>) -> (Verdict, Vec<String>) {
    let mut site = Site::new();
    site.survey.visited = Some(date(2026, 11, 3));
    site.survey.battery = battery;
    let figures = site.figures().battery;
    (figures.verdict, figures.reasons)
}

/// The verdict on a sound battery with something changed.
fn with(change: impl FnOnce(&mut OldBattery)) -> Verdict {
    let mut battery = sound();
    change(&mut battery);
    let (verdict, reasons) = on(Fact::Is(battery));
    assert!(!reasons.is_empty(), "{verdict:?} without a reason");
    verdict
}

#[test]
fn a_sound_battery_is_good() {
    assert_eq!(with(|_| {}), Good);
}

#[test]
fn none_goes_and_not_given_is_untested() {
    assert_eq!(on(Fact::Absent).0, Replace);
    assert_eq!(on(Fact::NotKnown).0, Untested);
    assert_eq!(on(Fact::Is(OldBattery::default())).0, Untested);
}

#[test]
fn looks_and_the_mains_off() {
    assert_eq!(with(|b| b.state = Some(BatteryState::Swollen)), Replace);
    assert_eq!(with(|b| b.state = Some(BatteryState::Leaking)), Replace);
    assert_eq!(with(|b| b.mains_off = Some(MainsOff::DropsOut)), Replace);
    assert_eq!(with(|b| b.mains_off = None), Good);
    assert_eq!(with(|b| b.state = None), Good);
}

/// Whole months from its making to the visit, days ignored: it was made in the month, on whatever day.
#[test]
fn age_in_whole_months() {
    for (made, verdict) in [
        ((2021, 11), Replace),
        ((2021, 12), Watch),
        ((2022, 11), Watch),
        ((2022, 12), Good),
        ((2026, 11), Good),
        ((2026, 12), Watch),
    ] {
        assert_eq!(with(|b| b.made = Some(made)), verdict, "{made:?}");
    }
    assert_eq!(with(|b| b.made = None), Watch);
}

/// Nobody says when it was visited: its age is not known.
#[test]
fn a_visit_without_a_date() {
    let mut site = Site::new();
    site.survey.battery = Fact::Is(sound());
    assert_eq!(site.figures().battery.verdict, Watch);
}

#[test]
fn the_voltage_at_rest() {
    for (rest, verdict) in [(11.99, Replace), (12.0, Watch), (12.69, Watch), (12.7, Good), (13.2, Good), (13.21, Watch)]
    {
        assert_eq!(with(|b| b.rest = volts(rest)), verdict, "{rest} V");
    }
    assert_eq!(with(|b| b.rest = None), Good);
}

/// Read too soon after the charger came off it is not judged, but it was read.
#[test]
fn a_rest_that_was_too_short() {
    let low = |rested: Option<f64>| {
        with(|b| {
            b.rest = volts(11.0);
            b.rested = rested.and_then(hours);
        })
    };
    assert_eq!(low(Some(2.0)), Replace);
    assert_eq!(low(Some(1.99)), Good);
    assert_eq!(low(None), Replace);
    let only_rest = |b: &mut OldBattery| {
        b.rested = hours(0.5);
        b.load = None;
        b.mains_off = None;
    };
    assert_eq!(with(only_rest), Watch);
}

#[test]
fn nothing_read_is_untested() {
    let nothing = |b: &mut OldBattery| {
        b.rest = None;
        b.load = None;
        b.mains_off = None;
    };
    assert_eq!(with(nothing), Untested);
    assert_eq!(
        with(|b| {
            nothing(b);
            b.made = Some((2010, 1));
        }),
        Replace
    );
    assert_eq!(
        with(|b| {
            nothing(b);
            b.mains_off = Some(MainsOff::StaysUp);
        }),
        Watch
    );
}

/// The verdict on a load test of so many amperes, minutes, volts.
fn loaded(current: f64, minutes: f64, read: f64) -> Verdict {
    with(|b| b.load = Some(LoadTest { current: amps(current), after: hours(minutes / 60.0), volts: volts(read) }))
}

/// It counts from 5 to 10 % of the capacity and from 10 to 30 min, ends included.
#[test]
fn a_load_test_that_counts() {
    assert_eq!(loaded(0.35, 10.0, 12.0), Good);
    assert_eq!(loaded(0.7, 30.0, 12.0), Good);
    assert_eq!(loaded(0.349, 10.0, 12.5), Watch);
    assert_eq!(loaded(0.701, 10.0, 12.5), Watch);
    assert_eq!(loaded(0.5, 9.9, 12.5), Watch);
    assert_eq!(loaded(0.5, 30.1, 12.5), Watch);
    assert_eq!(loaded(0.5, 20.0, 11.99), Watch);
}

/// The limits condemn at any time up to 15 or 30 min, at any current up to 10 % of the capacity.
#[test]
fn a_load_test_that_condemns() {
    assert_eq!(loaded(0.5, 15.0, 11.39), Replace);
    assert_eq!(loaded(0.5, 15.0, 11.4), Watch);
    assert_eq!(loaded(0.5, 15.1, 11.39), Watch);
    assert_eq!(loaded(0.5, 30.0, 10.79), Replace);
    assert_eq!(loaded(0.5, 30.0, 10.8), Watch);
    assert_eq!(loaded(0.5, 30.1, 10.0), Watch);
    assert_eq!(loaded(0.5, 1.0, 11.3), Replace);
    assert_eq!(loaded(0.05, 1.0, 11.3), Replace);
    assert_eq!(loaded(0.7, 5.0, 11.3), Replace);
    assert_eq!(loaded(0.71, 5.0, 9.0), Watch);
}

/// Without a capacity no load test counts, and none condemns.
#[test]
fn a_load_test_without_a_capacity() {
    assert_eq!(with(|b| b.capacity = None), Watch);
    assert_eq!(
        with(|b| {
            b.capacity = None;
            b.load = Some(LoadTest { current: amps(0.5), after: hours(0.1), volts: volts(9.0) });
        }),
        Watch
    );
}

/// A new battery does not change what is said of the old one.
#[test]
fn the_old_ones_verdict_stands() {
    let mut site = Site::new();
    site.survey.new_battery = Some(q("17 Ah"));
    site.survey.visited = Some(date(2026, 11, 3));
    site.survey.battery = Fact::Is(sound());
    assert_eq!(site.figures().battery.verdict, Good);
}

/// Every reason is said, worst first.
#[test]
fn every_reason_worst_first() {
    let battery = OldBattery { state: Some(BatteryState::Swollen), made: None, load: None, ..sound() };
    let (verdict, reasons) = on(Fact::Is(battery));
    assert_eq!(verdict, Replace);
    assert_eq!(reasons, ["It is swollen.", "Its age is not known."]);
}
