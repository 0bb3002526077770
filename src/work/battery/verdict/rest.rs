//! What the voltage at rest says.

use super::{Says, Verdict};
use crate::formula::sum::SPARE;
use crate::model::OldBattery;

/// A rest read earlier than this after the charger came off is not judged, in hours.
pub(in super::super) const RESTED: f64 = 2.0;

/// Under this many volts at rest a battery goes.
const REPLACE: f64 = 12.0;

/// Under this many it is recharged and tested again.
pub(in super::super) const WATCH: f64 = 12.7;

/// Over this many it is the charger that was read.
pub(in super::super) const CHARGER: f64 = 13.2;

/// Where these come from.
const BANDS: &str = "common practice; published tables differ by 0.25 V";

/// What its rest voltage says, when it rested long enough (or nobody says how long).
pub(super) fn says(battery: &OldBattery) -> Option<Says> {
    let rest = battery.rest?;
    let volts = rest.get();
    if battery.rested.is_some_and(|rested| rested.get() < RESTED - SPARE) {
        return None;
    }
    if volts < REPLACE - SPARE {
        return Some((Verdict::Replace, format!("At rest it read {rest}, under 12 V ({BANDS}).")));
    }
    if volts < WATCH - SPARE {
        return Some((
            Verdict::Watch,
            format!("At rest it read {rest}: under 12.7 V it is recharged and tested again ({BANDS})."),
        ));
    }
    let charger = volts > CHARGER + SPARE;
    charger.then(|| {
        (Verdict::Watch, format!("At rest it read {rest}: over 13.2 V that is the charger, not the battery ({BANDS})."))
    })
}
