//! What loops read at the board (5.4).

use super::build::{Site, band, contact, detector, device, door, metres, near, percent, q, sounder};
use wirelore::model::{DoubleEol, LoopState, Returns, Wiring};
use wirelore::units::Ohms;
use wirelore::work::{LoopFigure, StateFigure};

/// The one loop of a site with one item, 25 m of 80 Ω/km (4 Ω there and back).
fn one(wiring: Wiring, change: impl Fn(&mut Site)) -> LoopFigure {
    let mut site = Site::new();
    let item = site.add("Hall", detector(), "25 m");
    site.wire(&[item], wiring, false);
    change(&mut site);
    site.figures().loops.remove(0)
}

/// The figure of a state.
fn state(figure: &LoopFigure, state: LoopState) -> &StateFigure {
    figure.states.iter().find(|s| s.state == state).expect("the wiring has this state")
}

/// The states of a loop, in their order.
fn names(figure: &LoopFigure) -> Vec<&'static str> {
    figure.states.iter().map(|s| s.state.word()).collect()
}

#[test]
fn a_closed_loop_reads_cable_and_contact() {
    let figure = one(Wiring::ClosedLoop, |_| {});
    assert_eq!(names(&figure), ["normal", "alarm"]);
    let normal = state(&figure, LoopState::Normal);
    for ohms in [normal.ohms.value, normal.low, normal.high] {
        near(ohms, 14.0);
    }
    assert_eq!((normal.reads, normal.ok, normal.open), (Some(LoopState::Normal), Some(true), false));
    let alarm = state(&figure, LoopState::Alarm);
    assert_eq!((alarm.open, alarm.ohms.value, alarm.low, alarm.high), (true, None, None, None));
    assert_eq!((alarm.reads, alarm.ok), (Some(LoopState::Alarm), Some(true)));
}

/// The tolerance applies to the resistor, not to the cable.
#[test]
fn a_single_end_of_line_loop() {
    let figure = one(Wiring::SingleEol, |_| {});
    assert_eq!(names(&figure), ["normal", "alarm", "short"]);
    let normal = state(&figure, LoopState::Normal);
    near(normal.ohms.value, 4714.0);
    near(normal.low, 4700.0 * 0.95 + 14.0);
    near(normal.high, 4700.0 * 1.05 + 14.0);
    let short = state(&figure, LoopState::Short);
    assert_eq!((short.ohms.value, short.low, short.high), (Some(0.0), Some(0.0), Some(0.0)));
    assert!(figure.states.iter().all(|s| s.ok == Some(true)));
}

/// The alarm contact bridges its resistor, but for its own 10 Ω.
#[test]
fn a_double_end_of_line_loop() {
    let figure = one(Wiring::DoubleEol, |site| {
        site.devices.get_mut("motion-detector").expect("added").tamper = contact("3 Ω", None);
    });
    assert_eq!(names(&figure), ["normal", "alarm", "tamper", "short"]);
    near(state(&figure, LoopState::Normal).ohms.value, 4700.0 + 4.0 + 47_000.0 / 4710.0 + 3.0);
    near(state(&figure, LoopState::Alarm).ohms.value, 9400.0 + 4.0 + 3.0);
    near(state(&figure, LoopState::Alarm).low, 9400.0 * 0.95 + 7.0);
    let tamper = state(&figure, LoopState::Tamper);
    assert_eq!((tamper.open, tamper.reads), (true, Some(LoopState::Tamper)));
    assert!(figure.states.iter().all(|s| s.ok == Some(true)));
}

/// Published bands for 1 kΩ and 1 kΩ: tamper under 800 Ω, ready to 1500, alarm to 12000, tamper above. Rest reads R,
/// alarm 2R, and a short reads tamper, which is right for a short.
#[test]
fn the_published_bands_of_two_equal_resistors() {
    let figure = one(Wiring::DoubleEol, |site| {
        site.board.eol.double = Some(DoubleEol { end: q("1 kΩ"), alarm: q("1 kΩ") });
        site.board.bands.double_eol = Some(vec![
            band(LoopState::Tamper, None, Some(800.0)),
            band(LoopState::Normal, Some(800.0), Some(1500.0)),
            band(LoopState::Alarm, Some(1500.0), Some(12_000.0)),
            band(LoopState::Tamper, Some(12_000.0), None),
        ]);
    });
    let reads: Vec<Option<LoopState>> = figure.states.iter().map(|s| s.reads).collect();
    let expected = [LoopState::Normal, LoopState::Alarm, LoopState::Tamper, LoopState::Tamper].map(Some);
    assert_eq!(reads, expected);
    assert!(figure.states.iter().all(|s| s.ok == Some(true)));
}

/// Published bands for 1.1 kΩ and 1.1 kΩ: ready 870 to 1250, alarm 1750 to 2500, tamper under 100 or over 7 kΩ. What
/// lies between is undefined: three resistors of 1.1 kΩ in series are no state at all.
#[test]
fn a_gap_in_the_bands_reads_nothing() {
    let bands = vec![
        band(LoopState::Tamper, None, Some(100.0)),
        band(LoopState::Normal, Some(870.0), Some(1250.0)),
        band(LoopState::Alarm, Some(1750.0), Some(2500.0)),
        band(LoopState::Tamper, Some(7000.0), None),
    ];
    let figure = |alarm: &str| {
        one(Wiring::DoubleEol, |site| {
            site.board.eol.double = Some(DoubleEol { end: q("1.1 kΩ"), alarm: q(alarm) });
            site.board.bands.double_eol = Some(bands.clone());
        })
    };
    assert!(figure("1.1 kΩ").states.iter().all(|s| s.ok == Some(true)));
    let wrong = figure("2.2 kΩ");
    let alarm = state(&wrong, LoopState::Alarm);
    assert_eq!((alarm.reads, alarm.ok), (None, Some(false)));
}

/// An open loop that falls beyond every band reads nothing.
#[test]
fn an_open_loop_needs_a_band_without_an_end() {
    let figure = one(Wiring::ClosedLoop, |site| {
        site.board.bands.closed_loop =
            Some(vec![band(LoopState::Normal, None, Some(1e3)), band(LoopState::Alarm, Some(1e3), Some(1e9))]);
    });
    let alarm = state(&figure, LoopState::Alarm);
    assert_eq!((alarm.reads, alarm.ok), (None, Some(false)));
}

/// Nominal reads right, one end of the tolerance does not: the state is not right.
#[test]
fn every_corner_must_read_right() {
    let figure = one(Wiring::SingleEol, |site| site.board.eol.single = Ohms::new(6900.0));
    let normal = state(&figure, LoopState::Normal);
    assert_eq!((normal.reads, normal.ok), (Some(LoopState::Normal), Some(false)));
}

/// A window of lengths: the longest for the nominal and the high figure, the shortest for the low one.
#[test]
fn a_window_of_lengths() {
    let figure = one(Wiring::ClosedLoop, |site| site.survey.cables[0].length = metres(10.0, 25.0));
    let normal = state(&figure, LoopState::Normal);
    near(normal.ohms.value, 14.0);
    near(normal.high, 14.0);
    near(normal.low, 11.6);
}

/// Length not known: the resistance is not; the open and the shorted state are.
#[test]
fn a_length_that_is_not_known() {
    let figure = one(Wiring::SingleEol, |site| site.survey.cables[0].length = None);
    let normal = state(&figure, LoopState::Normal);
    assert_eq!((normal.ohms.value, normal.low, normal.high), (None, None, None));
    assert_eq!((normal.reads, normal.ok), (None, None));
    assert_eq!(state(&figure, LoopState::Alarm).ok, Some(true));
    assert_eq!(state(&figure, LoopState::Short).ok, Some(true));
}

/// Tolerance not known: the nominal figure is known, its ends are not, and so nobody can say that it is right.
#[test]
fn a_tolerance_that_is_not_known() {
    let figure = one(Wiring::SingleEol, |site| site.board.eol.tolerance = None);
    let normal = state(&figure, LoopState::Normal);
    near(normal.ohms.value, 4714.0);
    assert_eq!((normal.low, normal.high, normal.ok), (None, None, None));
    assert_eq!(normal.reads, Some(LoopState::Normal));
    let closed = one(Wiring::ClosedLoop, |site| site.board.eol.tolerance = None);
    assert_eq!(state(&closed, LoopState::Normal).ok, Some(true));
}

/// Bands not known: nothing reads anything, and nobody can say that it is right.
#[test]
fn bands_that_are_not_known() {
    let figure = one(Wiring::DoubleEol, |site| site.board.bands.double_eol = None);
    assert!(figure.states.iter().all(|s| s.reads.is_none() && s.ok.is_none()));
}

/// Resistors not known: no figure rests on a guess.
#[test]
fn resistors_that_are_not_known() {
    let figure = one(Wiring::DoubleEol, |site| site.board.eol.double = None);
    assert_eq!(state(&figure, LoopState::Normal).ohms.value, None);
    assert_eq!(state(&figure, LoopState::Alarm).ok, None);
    assert_eq!(state(&figure, LoopState::Tamper).ok, Some(true));
}

/// A tolerance of nothing leaves all three figures the same.
#[test]
fn a_tolerance_of_nothing() {
    let figure = one(Wiring::SingleEol, |site| site.board.eol.tolerance = percent(0.0));
    let normal = state(&figure, LoopState::Normal);
    assert_eq!((normal.low, normal.high), (normal.ohms.value, normal.ohms.value));
}

/// Shared closed loops are in series.
#[test]
fn shared_loops_add_up() {
    let mut site = Site::new();
    let front = site.add("Front door", door(), "25 m");
    let back = site.add("Back door", door(), "10 m");
    site.wire(&[front, back], Wiring::ClosedLoop, false);
    let figure = &site.figures().loops[0];
    near(figure.states[0].ohms.value, 4.0 + 1.0 + 1.6 + 1.0);
    assert_eq!(figure.items, [front, back]);
}

/// The tamper loop: pairs, and last a one-core tamper that comes back over two negatives.
#[test]
fn the_tamper_loop_with_a_one_core_tamper() {
    let mut site = Site::new();
    let back = site.add("Back door", door(), "25 m");
    let front = site.add("Front", sounder(), "10 m");
    site.feed(&[front], 1, 2);
    site.wire(&[back, front], Wiring::ClosedLoop, true);
    let figure = &site.figures().loops[0];
    assert!(figure.tamper);
    assert_eq!(names(figure), ["normal", "alarm"]);
    // 4 Ω of cable and 2 Ω of contact, then one core of 0.8 Ω and two of them in parallel.
    near(figure.states[0].ohms.value, 4.0 + 2.0 + 0.8 + 0.4);
    assert_eq!(figure.states[1].reads, Some(LoopState::Alarm));
    assert_eq!(figure.states[1].ok, Some(true));
}

/// A one-core tamper with no negative planned has nothing to come back over.
#[test]
fn a_one_core_tamper_without_a_negative() {
    let mut site = Site::new();
    let tamper = contact("0 Ω", Some(Returns::Negative));
    let item = site.add("Front", wirelore::model::Device { tamper, ..device("odd") }, "10 m");
    site.wire(&[item], Wiring::ClosedLoop, true);
    let figure = &site.figures().loops[0];
    assert_eq!((figure.states[0].ohms.value, figure.states[0].ok), (None, None));
    assert_eq!(figure.states[1].ok, Some(true));
}

/// The figure shows its resistor with its tolerance, its cable and its contact.
#[test]
fn a_loop_shows_what_is_in_it() {
    let figure = one(Wiring::SingleEol, |_| {});
    let given = &state(&figure, LoopState::Normal).ohms.given;
    let text = |symbol: &str| given.iter().find(|g| g.symbol == symbol).map(|g| g.text.as_str());
    assert_eq!(text("E"), Some("4.7 kΩ ± 5 %"));
    assert_eq!(text("r(C1)"), Some("0.08 Ω/m"));
    assert_eq!(text("L(C1)"), Some("25 m"));
    assert_eq!(text("s(Hall)"), Some("10 Ω"));
}
