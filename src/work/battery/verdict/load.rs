//! What a load test says.

use super::{Says, Verdict};
use crate::formula::sum::SPARE;
use crate::model::{LoadTest, OldBattery};
use crate::units::{Amps, Hours, Volts};

/// The smallest load that counts, as a share of the capacity in amperes.
pub(in super::super) const LEAST: f64 = 0.05;

/// The largest load that counts or condemns, likewise.
pub(in super::super) const MOST: f64 = 0.10;

/// A test that counts was read from this many hours on.
pub(in super::super) const FROM: f64 = 10.0 / 60.0;

/// A test that counts was read up to this many hours.
pub(in super::super) const UNTIL: f64 = 0.5;

/// It passes at this many volts or more (common practice).
pub(in super::super) const PASSES: f64 = 12.0;

/// Up to so many hours, under so many volts: it goes (common practice).
const CONDEMNS: [(f64, f64); 2] = [(0.25, 11.4), (0.5, 10.8)];

/// What is said when there was none.
pub(super) const NOT_MADE: &str = "No load test was made.";

/// The same in words.
const LIMITS: &str = "It goes under 11.4 V within 15 min, or under 10.8 V within 30 min (common practice)";

/// A load test of which everything is known.
struct Test {
    /// The capacity of the battery, in ampere-hours.
    capacity: f64,
    current: Amps,
    after: Hours,
    volts: Volts,
}

/// What its load test says; that there is none that counts is said too.
pub(super) fn says(battery: &OldBattery) -> Says {
    let Some(load) = battery.load else {
        return (Verdict::Watch, NOT_MADE.to_string());
    };
    let Some(test) = known(battery, load) else {
        let why = "current, time, volts and the battery's capacity must be known";
        return (Verdict::Watch, format!("The load test does not count: {why}."));
    };
    let read = format!("Under {} it read {} after {}", test.current, test.volts, test.after);
    if condemned(&test) {
        return (Verdict::Replace, format!("{read}: it can't carry a load. {LIMITS}."));
    }
    if !counts(&test) {
        let why = "a test counts at 5 to 10 % of the capacity in amperes, read at 10 to 30 min (common practice)";
        return (Verdict::Watch, format!("{read}, which does not count: {why}."));
    }
    if test.volts.get() < PASSES - SPARE {
        return (Verdict::Watch, format!("{read}: good would be 12 V or more (common practice)."));
    }
    (Verdict::Good, format!("{read}: it passed, 12 V or more (common practice)."))
}

/// The test, when all of it is known and so is the capacity.
fn known(battery: &OldBattery, load: LoadTest) -> Option<Test> {
    Some(Test { capacity: battery.capacity?.get(), current: load.current?, after: load.after?, volts: load.volts? })
}

/// Whether it read so low, so soon, at so small a load that the battery goes.
fn condemned(test: &Test) -> bool {
    let soon = |limit: f64| test.after.get() <= limit + SPARE;
    let low = |limit: f64| test.volts.get() < limit - SPARE;
    small_enough(test) && CONDEMNS.iter().any(|(hours, volts)| soon(*hours) && low(*volts))
}

/// Whether it was long enough and heavy enough, and no heavier, to say something.
fn counts(test: &Test) -> bool {
    let heavy = test.current.get() >= LEAST * test.capacity - SPARE;
    heavy && small_enough(test) && (FROM - SPARE..=UNTIL + SPARE).contains(&test.after.get())
}

/// Whether its load was no more than a battery of this capacity must carry.
fn small_enough(test: &Test) -> bool {
    test.current.get() <= MOST * test.capacity + SPARE
}
