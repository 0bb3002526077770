//! What must hold of every job, whatever its figures.

use super::build::{Site, amps, detector, fed, load, metres, percent, sounder, trigger};
use super::limits::{defined, house};
use proptest::prelude::*;
use wirelore::model::{Device, Fires, Wiring};
use wirelore::units::{Celsius, Ohms};

/// How a trigger fires, any of the four ways.
fn fires() -> impl Strategy<Value = Fires> {
    prop::sample::select(vec![
        Fires::NegativeApplied,
        Fires::NegativeRemoved,
        Fires::PositiveApplied,
        Fires::PositiveRemoved,
    ])
}

/// A sounder on its cable, and what its volts are on mains and at the battery's end.
fn far_end(length: f64, current: f64, siren: f64, fires: Fires, cores: (usize, usize)) -> (f64, f64) {
    let mut site = Site::new();
    let triggers = vec![trigger("siren", fires, siren)];
    let item = site.add("Front", Device { supply: fed(current, current), triggers, ..sounder() }, "1 m");
    site.survey.cables[0].length = metres(length, length);
    site.feed(&[item], cores.0, cores.1);
    let row = &site.figures().drops[0];
    (row.mains.value.expect("known"), row.battery_end.value.expect("known"))
}

/// What a battery must hold for so much on the source.
fn required(own: f64, board: f64, other: f64, detector_amps: f64) -> f64 {
    let mut site = Site::new();
    let item = site.add("Hall", Device { supply: fed(detector_amps, detector_amps), ..detector() }, "1 m");
    site.feed(&[item], 1, 1);
    site.block().own = amps(own);
    site.board.feed = Some(wirelore::model::Feed { standby: amps(board), alarm: amps(board), ..Default::default() });
    site.survey.loads = vec![load("Router", other, other)];
    site.figures().battery.required.value.expect("known")
}

/// Whether each state of a loop reads as it should with this tolerance.
fn states_ok(wiring: Wiring, tolerance: f64, end: f64, lengths: (f64, f64)) -> Vec<bool> {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "1 m");
    site.survey.cables[0].length = metres(lengths.0, lengths.0 + lengths.1);
    site.board.eol.tolerance = percent(tolerance);
    site.board.eol.single = Ohms::new(end);
    site.wire(&[item], wiring, false);
    site.figures().loops[0].states.iter().map(|s| s.ok == Some(true)).collect()
}

proptest! {
    #[test]
    fn volts_fall_with_length(a in 0.0..500.0, b in 0.0..500.0, i in 0.0..1.0, s in 0.0..1.0, f in fires()) {
        let (short, long) = (f64::min(a, b), f64::max(a, b));
        let near = far_end(short, i, s, f, (1, 1));
        let far = far_end(long, i, s, f, (1, 1));
        prop_assert!(far.0 <= near.0 && far.1 <= near.1);
    }

    #[test]
    fn volts_fall_with_current(l in 0.0..500.0, i in 0.0..1.0, s in 0.0..1.0, more in 0.0..1.0, f in fires()) {
        let light = far_end(l, i, s, f, (1, 1));
        prop_assert!(far_end(l, i + more, s, f, (1, 1)).0 <= light.0 + 1e-9);
        prop_assert!(far_end(l, i, s + more, f, (1, 1)).0 <= light.0 + 1e-9);
    }

    #[test]
    fn another_core_never_lowers_volts(
        l in 0.0..500.0, i in 0.0..1.0, s in 0.0..1.0, p in 1_usize..4, n in 1_usize..4, f in fires()
    ) {
        let before = far_end(l, i, s, f, (p, n));
        prop_assert!(far_end(l, i, s, f, (p + 1, n)).0 >= before.0 - 1e-9);
        prop_assert!(far_end(l, i, s, f, (p, n + 1)).0 >= before.0 - 1e-9);
    }

    #[test]
    fn the_battery_end_is_below_mains_by_their_difference(l in 0.0..500.0, i in 0.0..1.0, f in fires()) {
        let (mains, end) = far_end(l, i, 0.1, f, (1, 1));
        prop_assert!((mains - end - 3.2).abs() < 1e-9);
    }

    #[test]
    fn required_grows_with_each_load(
        own in 0.0..1.0, board in 0.0..1.0, other in 0.0..1.0, item in 0.0..1.0, more in 0.001..1.0
    ) {
        let before = required(own, board, other, item);
        for after in [
            required(own + more, board, other, item),
            required(own, board + more, other, item),
            required(own, board, other + more, item),
            required(own, board, other, item + more),
        ] {
            prop_assert!(after > before);
        }
    }

    #[test]
    fn a_wider_tolerance_never_mends_a_loop(
        wiring in prop::sample::select(vec![Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol]),
        tolerance in 0.0..20.0, wider in 0.0..20.0, end in 100.0..10_000.0, l in 0.0..5000.0, d in 0.0..5000.0
    ) {
        let narrow = states_ok(wiring, tolerance, end, (l, d));
        let wide = states_ok(wiring, tolerance + wider, end, (l, d));
        for (narrow, wide) in narrow.into_iter().zip(wide) {
            prop_assert!(narrow || !wide);
        }
    }

    #[test]
    fn no_figure_is_ever_infinite(
        length in 0.0..1e12, current in 0.0..1e12, celsius in -273.15..1e6, peukert in -10.0..10.0,
        tolerance in 0.0..1000.0, ohms in 0.0..1e12
    ) {
        let mut site = house();
        site.survey.cables[0].length = metres(0.0, length);
        site.devices.insert("motion-detector".into(), Device { supply: fed(0.0, current), ..detector() });
        site.survey.temperature = Celsius::new(celsius).expect("finite");
        site.rules.peukert = Some(peukert);
        site.board.eol.tolerance = percent(tolerance);
        site.board.eol.single = Ohms::new(ohms);
        defined(&site);
    }

    #[test]
    fn the_same_job_gives_the_same_figures(length in 0.0..500.0, current in 0.0..1.0) {
        let mut site = house();
        site.survey.cables[0].length = metres(length, length);
        site.survey.loads = vec![load("Router", current, current)];
        prop_assert_eq!(site.figures(), site.figures());
    }
}
