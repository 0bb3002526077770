//! The standby battery.

use super::super::build::{Site, amps, detector, fed, hours, near};
use proptest::prelude::*;
use wirelore::model::{Device, Fact};
use wirelore::units::AmpHours;
use wirelore::work::cure;

/// A detector of so much at rest and in alarm, a battery of 7 Ah.
fn site(standby: f64, alarm: f64) -> Site {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(standby, alarm), ..detector() }, "1 m");
    site.feed(&[item], 1, 1);
    site
}

fn enough(site: &Site) -> bool {
    site.figures().battery.enough == Some(true)
}

fn with_battery(mut site: Site, ah: f64) -> Site {
    site.survey.new_battery = AmpHours::new(ah);
    site
}

fn with_standby(mut site: Site, time: f64) -> Site {
    site.rules.grades[0].standby = hours(time);
    site
}

proptest! {
    #[test]
    fn each_cure_of_a_small_battery_is_just_enough(standby in 0.0..2.0, more in 0.0..6.0) {
        let alarm = standby + more;
        let Some(cure) = site(standby, alarm).asked(|job, _, figures| cure::battery(job, &figures.battery)) else {
            prop_assert!(enough(&site(standby, alarm)));
            return Ok(());
        };
        let least = cure.least_ah.expect("a large battery is enough");
        prop_assert!(enough(&with_battery(site(standby, alarm), least * (1.0 + 1e-9))));
        prop_assert!(!enough(&with_battery(site(standby, alarm), least * 0.9999)));
        if let Some(fits) = cure.fits {
            prop_assert!(fits + 1e-6 >= least && enough(&with_battery(site(standby, alarm), fits)));
        }
        match cure.lasts {
            Some(time) => {
                prop_assert!(enough(&with_standby(site(standby, alarm), time)));
                prop_assert!(!enough(&with_standby(site(standby, alarm), time * 1.0001 + 1e-6)));
            }
            None => prop_assert!(!enough(&with_standby(site(standby, alarm), 0.0))),
        }
        if let Some(less) = cure.less_amps.filter(|less| *less <= standby) {
            prop_assert!(enough(&site(standby - less, alarm - less)));
            let step = less * 0.9999 - 1e-6;
            prop_assert!(step < 0.0 || !enough(&site(standby - step, alarm - step)));
        }
    }

    #[test]
    fn each_cure_of_a_slow_recharge_is_just_enough(ah in 1.0..40.0, charge in 0.05..1.0) {
        let slow = |ah: f64, charge: f64| {
            let mut site = with_battery(site(0.01, 0.01), ah);
            site.block().charge = amps(charge);
            site.asked(|job, _, figures| cure::recharge(job, &figures.battery))
        };
        let Some(cure) = slow(ah, charge) else { return Ok(()) };
        let (needed, largest) = (cure.charge.expect("known"), cure.largest_ah.expect("known"));
        prop_assert!(slow(ah, needed * (1.0 + 1e-9)).is_none() && slow(ah, needed * 0.9999).is_some());
        prop_assert!(slow(largest * (1.0 - 1e-9), charge).is_none() && slow(largest * 1.0001, charge).is_some());
    }
}

/// 60 + 140 + 600 = 800 mA for 12 h and 60 + 180 + 600 = 840 mA for 15 min. Of 17 Ah, I20 is 0.85 A: 9.6 + 0.21 =
/// 9.81 Ah, times 1.25 / 0.97 = 12.64 Ah: enough; 7 Ah is not.
#[test]
fn the_battery_that_the_source_takes() {
    let site = site(0.6, 0.6);
    let cure = site.asked(|job, _, figures| cure::battery(job, &figures.battery)).expect("7 Ah is too small");
    assert_eq!(cure.fits, Some(17.0));
    assert!(cure.text().contains("Would do: a battery of 17 Ah or "), "{}", cure.text());
    assert!(enough(&with_battery(site, 17.0)));
}

/// 17 Ah at 100 mA: 0.8 · 17 / (0.9 · 0.1) = 151 h of 72 h. 0.8 · 17 / (0.9 · 72) = 209.9 mA; 72 · 0.9 · 0.1 / 0.8 =
/// 8.1 Ah, so of 2.1, 7 and 17 Ah the largest is 7.
#[test]
fn a_slow_recharge_worked_by_hand() {
    let mut site = with_battery(site(0.01, 0.01), 17.0);
    site.block().charge = amps(0.1);
    let cure = site.asked(|job, _, figures| cure::recharge(job, &figures.battery)).expect("it is slow");
    near(cure.charge, 13.6 / 64.8);
    near(cure.largest_ah, 8.1);
    assert_eq!(cure.fits, Some(7.0));
    assert_eq!(
        cure.text(),
        "Would do: a charging current of 209.9 mA (now 100 mA) or a battery of at most 8.1 Ah: 7 Ah is enough."
    );
}

/// At 7/81 A, 72 h bring back 72 · 0.9 · 7/81 / 0.8 = 7 Ah and not a bit more: a battery of 7 Ah is in time.
#[test]
fn a_battery_that_is_just_in_time_is_enough() {
    let mut site = with_battery(site(0.01, 0.01), 17.0);
    site.block().charge = amps(7.0 / 81.0);
    let cure = site.asked(|job, _, figures| cure::recharge(job, &figures.battery)).expect("it is slow");
    near(cure.largest_ah, 7.0);
    assert_eq!(cure.fits, Some(7.0));
}

/// Nothing that the source takes is enough, and no battery at all is known: said, and no number that is none.
#[test]
fn a_source_that_takes_nothing() {
    let mut site = site(0.6, 0.6);
    if let Fact::Is(battery) = &mut site.block().battery {
        battery.fits.clear();
    }
    let text = site.asked(|job, _, figures| cure::battery(job, &figures.battery).expect("too small").text());
    assert!(text.contains("or more, which this source does not take"), "{text}");
}
