//! Supplies, sources, outputs, fuses, cores, and the volts of the feed.

use super::super::build::{
    Site, detector, device, fed, fuse, near, q, sounder, supply, trigger, two_wire, volts, window,
};
use proptest::prelude::*;
use wirelore::model::{Device, Feeds, Fires};
use wirelore::work::cure::{self, Cores};

/// A detector of so much at rest and in alarm on one pair.
fn site(standby: f64, alarm: f64) -> Site {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(standby, alarm), ..detector() }, "1 m");
    site.feed(&[item], 1, 1);
    site
}

fn text(site: &Site, what: &str) -> Option<String> {
    site.asked(|job, plan, figures| {
        let row = figures.loading.iter().find(|row| row.what == what).expect("the row");
        cure::loading_text(job, plan, &figures.loading, row)
    })
}

proptest! {
    #[test]
    fn what_must_go_is_just_enough(standby in 0.0..2.0, more in 0.0..2.0, which in 0_usize..5) {
        let what = ["supply:AUX", "source", "fuse:panel:F2", "fuse:panel:F3", "fuse:board:F1"][which];
        let row = site(standby, standby + more).row(what);
        let Some(cure) = cure::load(&row) else {
            prop_assert!(row.ok == Some(true) && !row.near);
            return Ok(());
        };
        let (rest, alarm) = (cure.standby.unwrap_or(0.0), cure.alarm.unwrap_or(0.0));
        let fine = |off: f64| {
            let (rest, alarm): (f64, f64) = (standby - rest * off, standby + more - alarm * off);
            let row = site(rest.max(0.0), alarm.max(0.0)).row(what);
            row.ok == Some(true) && !(cure.near && row.near)
        };
        if rest <= standby && alarm <= standby + more {
            prop_assert!(fine(1.0), "{cure:?} {row:?}");
        }
        if rest > 1e-6 || alarm > 1e-6 {
            prop_assert!(!fine(0.999_9) || rest.max(alarm) > standby + more, "{cure:?} {row:?}");
        }
    }

    #[test]
    fn cores_for_a_rating_are_the_fewest(standby in 0.0..4.0, alarm in 0.0..4.0, siren in 0.0..0.9) {
        let row = |positive: usize, negative: usize| {
            let mut site = Site::new();
            let triggers = vec![trigger("siren", Fires::NegativeApplied, siren)];
            let item = site.add("Front", Device { supply: fed(standby, alarm), triggers, ..sounder() }, "1 m");
            site.feed(&[item], positive, negative);
            site.fire(item, 0, 0);
            site.asked(|job, plan, figures| {
                let row = figures.loading.iter().find(|row| row.what == "core:C1").cloned();
                let cure = row.as_ref().and_then(|row| cure::cores(job, plan, row));
                (row.is_none_or(|row| row.ok == Some(true)), cure)
            })
        };
        let (fine, cure) = row(1, 1);
        prop_assert_eq!(fine, cure.is_none());
        let Some(cure) = cure else { return Ok(()) };
        let Cores { positive, negative } = cure.pairs[0].2;
        prop_assert!(row(positive, negative).0);
        prop_assert!(positive == 1 || !row(positive - 1, negative).0);
        prop_assert!(negative == 1 || !row(positive, negative - 1).0);
    }

    #[test]
    fn the_volts_of_the_source_are_put_right(mains in 8.0..18.0, cutoff in 8.0..18.0) {
        let feed = |mains: f64, cutoff: f64| {
            let mut site = site(0.0, 0.0);
            site.block().volts = volts(mains);
            site.block().cutoff = volts(cutoff);
            site.asked(|job, _, _| cure::feed(job))
        };
        let Some(cure) = feed(mains, cutoff) else { return Ok(()) };
        let (by, cut) = (cure.mains.unwrap_or(0.0), cure.cutoff.unwrap_or(0.0));
        let still = feed(mains + by * (1.0 + 1e-9), cutoff + cut * (1.0 + 1e-9));
        prop_assert!(still.is_none());
        prop_assert!(feed(mains + by * 0.99, cutoff + cut * 0.99).is_some());
    }
}

/// 140 mA of board and 400 mA of detector are 540 mA of 400 mA at rest; 180 and 600 are 780 mA of 1 A in alarm.
#[test]
fn only_what_is_over_is_said() {
    let said = text(&site(0.4, 0.6), "source").expect("it is over");
    assert_eq!(
        said,
        "140 mA at rest must be fed from elsewhere, or a source that gives 540 mA at rest and 780 mA in alarm."
    );
    assert_eq!(text(&site(0.1, 0.1), "source"), None);
}

/// 1.1 A through 1 A: 100 mA must go, and the next fuse of the standard, 1.25 A, is named as no cure.
#[test]
fn a_larger_fuse_is_no_cure() {
    let said = text(&site(0.1, 1.1), "fuse:board:F1").expect("it is over");
    assert_eq!(
        said,
        "100 mA in alarm must go elsewhere. A fuse of 1.25 A is no cure: it would no longer guard what is behind it."
    );
    let mut near_it = site(0.1, 0.9);
    near_it.board.unit.fuses = vec![fuse("F1", "1 A")];
    let said = text(&near_it, "fuse:board:F1").expect("it is near");
    assert_eq!(
        said,
        "150 mA in alarm must go elsewhere to bring it to 75 %. A fuse of 1.25 A is no cure: it would no longer guard \
         what is behind it."
    );
}

/// 1.2 A of siren on an output of 1 A.
#[test]
fn an_output_that_carries_too_much_worked_by_hand() {
    let mut site = Site::new();
    let triggers = vec![trigger("siren", Fires::NegativeApplied, 1.2)];
    let item = site.add("Front", Device { triggers, ..sounder() }, "1 m");
    site.feed(&[item], 1, 1);
    site.fire(item, 0, 0);
    let said = text(&site, "output:SND").expect("it is over");
    assert_eq!(said, "200 mA in alarm must go to another output, or over a relay.");
}

/// 800 mA in alarm on 750 mA: 50 mA must go. A second supply of 500 mA has nothing on it, behind a fuse of 160 mA.
#[test]
fn another_supply_with_room_is_named() {
    let mut site = site(0.1, 0.8);
    let said = text(&site, "supply:AUX").expect("it is over");
    assert_eq!(said, "50 mA in alarm must go to another supply than the board's only one.");
    site.board.supplies.push(supply("BELL", "500 mA", Some("F9")));
    site.board.unit.fuses.push(fuse("F9", "160 mA"));
    let said = text(&site, "supply:AUX").expect("it is over");
    let room = "BELL has room for 160 mA at rest and 160 mA in alarm.";
    assert_eq!(said, format!("50 mA in alarm must go to another supply: {room}"));
    site.board.supplies[1].feeds = Feeds::Sounders;
    let said = text(&site, "supply:AUX").expect("it is over");
    assert_eq!(said, "50 mA in alarm must go to another supply, and none of the board's has that room.");
}

/// 50 mA must go, at rest and in alarm. What already loads the second supply, 120 mA and 150 mA, is not room; a supply
/// with room in alarm alone is none; one that feeds sounders helps out another that does.
#[test]
fn room_is_what_is_left_at_rest_and_in_alarm() {
    let mut site = site(0.8, 0.8);
    site.board.supplies.push(supply("BELL", "500 mA", None));
    let other = site.add("Yard", Device { supply: fed(0.12, 0.15), ..device("beam") }, "1 m");
    site.feed(&[other], 1, 1).supply = 1;
    let must = "50 mA at rest and 50 mA in alarm must go to another supply";
    let said = |site: &Site| text(site, "supply:AUX").expect("it is over");
    assert_eq!(said(&site), format!("{must}: BELL has room for 380 mA at rest and 350 mA in alarm."));
    for supply in &mut site.board.supplies {
        supply.feeds = Feeds::Sounders;
    }
    assert_eq!(said(&site), format!("{must}: BELL has room for 380 mA at rest and 350 mA in alarm."));
    site.board.supplies[1].limit = Some(q("150 mA"));
    site.board.supplies[1].alarm_limit = Some(q("2 A"));
    assert_eq!(said(&site), format!("{must}, and none of the board's has that room."));
}

/// 2.5 A in alarm over cores of 1 A: three on each side.
#[test]
fn cores_worked_by_hand() {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(0.1, 2.5), ..device("heater") }, "1 m");
    site.feed(&[item], 1, 2);
    let said = text(&site, "core:C1").expect("it is over");
    assert_eq!(said, "At 1 A a core: 3 positive and 3 negative cores of AUX would do (now 1 and 2).");
}

/// A sounder on two wires that is fired by positive: 1.4 A back over one negative core, and no positive one is fed.
#[test]
fn a_side_without_a_core_stays_without() {
    let mut site = Site::new();
    let item = site.add("Front", two_wire(Fires::PositiveApplied, 1.4), "1 m");
    site.feed(&[item], 0, 1);
    site.fire(item, 0, 0);
    let said = text(&site, "core:C1").expect("it is over");
    assert!(said.starts_with("At 1 A a core: 0 positive and 2 negative cores of AUX would do (now 0 and 1)"), "{said}");
}

/// 1.4 A over a trigger's own core of 1 A: two; the pair has cores enough.
#[test]
fn a_triggers_own_core_worked_by_hand() {
    let mut site = Site::new();
    let triggers = vec![trigger("siren", Fires::NegativeApplied, 1.4)];
    let item = site.add("Front", Device { supply: fed(0.02, 0.02), triggers, ..sounder() }, "1 m");
    site.feed(&[item], 3, 1);
    site.fire(item, 0, 0);
    let said = text(&site, "core:C1").expect("it is over");
    assert_eq!(said, "At 1 A a core: the siren of Front takes 1.4 A and needs 2 cores side by side.");
}

/// A cut-off of 9.6 V for a board of 10 to 15 V.
#[test]
fn the_feed_worked_by_hand() {
    let mut site = site(0.0, 0.0);
    site.block().cutoff = volts(9.6);
    site.board.feed =
        site.board.feed.take().map(|feed| wirelore::model::Feed { volts: window("10 V", "15 V"), ..feed });
    let cure = site.asked(|job, _, _| cure::feed(job)).expect("it is wrong");
    near(cure.cutoff, 0.4);
    assert_eq!(cure.text(), "The source must drop its battery between 10 V and 15 V (0.4 V more than now).");
    site.block().cutoff = volts(10.0);
    site.block().volts = volts(16.0);
    let cure = site.asked(|job, _, _| cure::feed(job)).expect("it is wrong");
    assert_eq!(cure.text(), "The source must give 10 V to 15 V on mains (1 V less than now).");
    site.block().volts = volts(15.0);
    assert_eq!(site.asked(|job, _, _| cure::feed(job)), None, "the ends of a window belong to it");
}
