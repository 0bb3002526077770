//! What a standby battery must hold and how long it takes to come back.

use super::worked::finite;

/// A battery's capacity is rated at a discharge over this many hours (battery data sheets; IEC 61056-1, from memory).
pub const RATED_HOURS: f64 = 20.0;

/// The share of the charging current that a lead-acid battery keeps (common practice).
pub const CHARGE_KEPT: f64 = 0.9;

/// The share of its capacity to which a battery must come back in the rules' time (EN 50131-6).
pub const RECHARGED: f64 = 0.8;

/// Ampere-hours that a current takes out of a battery over some hours, by Peukert's formula in its rated form: more
/// than current times time when it is above the 20-hour current, never less. `None` when that is not a number (a
/// battery of no capacity).
#[must_use]
pub fn phase(amps: f64, hours: f64, capacity: f64, peukert: f64) -> Option<f64> {
    if amps <= 0.0 || hours <= 0.0 {
        return Some(0.0);
    }
    let rated = capacity / RATED_HOURS;
    finite(amps * hours * (amps / rated).powf(peukert - 1.0).max(1.0))
}

/// What a battery has to do and what weakens it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duty {
    /// Amperes at rest.
    pub standby: f64,
    /// Hours of standby.
    pub standby_hours: f64,
    /// Amperes in alarm.
    pub alarm: f64,
    /// Hours of alarm.
    pub alarm_hours: f64,
    /// How much larger a battery must be to serve when aged.
    pub ageing: f64,
    /// The exponent of Peukert's formula.
    pub peukert: f64,
    /// The fraction of the rated capacity at the battery's temperature.
    pub temperature_factor: f64,
}

/// Ampere-hours that a battery of this capacity must be rated at to do its duty; `None` when that is not a number.
#[must_use]
pub fn required(duty: &Duty, capacity: f64) -> Option<f64> {
    let standby = phase(duty.standby, duty.standby_hours, capacity, duty.peukert)?;
    let alarm = phase(duty.alarm, duty.alarm_hours, capacity, duty.peukert)?;
    finite((standby + alarm) * duty.ageing / duty.temperature_factor)
}

/// Hours to come back to 80 % of the capacity with this charging current; `None` without a current.
#[must_use]
pub fn recharge(capacity: f64, charge: f64) -> Option<f64> {
    finite(RECHARGED * capacity / (CHARGE_KEPT * charge)).filter(|hours| *hours >= 0.0)
}

/// The value at `x` on straight lines between points in rising order, flat outside them; `None` without a point.
#[must_use]
pub fn between(points: &[(f64, f64)], x: f64) -> Option<f64> {
    let (first, last) = (points.first()?, points.last()?);
    if x <= first.0 {
        return Some(first.1);
    }
    let segment = points.windows(2).find_map(|pair| match pair {
        [low, high] if low.0 < x && x <= high.0 => Some((*low, *high)),
        _ => None,
    });
    segment.map_or(Some(last.1), |(low, high)| finite(low.1 + (high.1 - low.1) * (x - low.0) / (high.0 - low.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A 20-hour rating discharged at its 20-hour current lasts 20 hours, whatever the exponent (Peukert, 1897, in its
    /// rated form `t = R·(C/(I·R))^k`).
    #[test]
    fn the_twenty_hour_current_takes_exactly_the_capacity() {
        for k in [1.0, 1.1, 1.15, 1.3] {
            let taken = phase(5.0, 20.0, 100.0, k);
            assert!(taken.is_some_and(|ah| (ah - 100.0).abs() < 1e-9), "{k}: {taken:?}");
        }
    }

    /// The same formula the other way round: the hours that Peukert's rated form gives take exactly the capacity.
    #[test]
    fn the_rated_form_empties_the_battery() {
        for (current, k) in [(0.716_f64, 1.15_f64), (1.28, 1.15), (4.42, 1.15), (4.42, 1.22)] {
            let hours = 20.0 * (7.5 / (current * 20.0)).powf(k);
            let taken = phase(current, hours, 7.5, k);
            assert!(taken.is_some_and(|ah| (ah - 7.5).abs() < 1e-9), "{current}: {taken:?}");
        }
    }

    #[test]
    fn a_small_current_takes_no_less_than_itself() {
        assert_eq!(phase(0.1, 10.0, 7.0, 1.15), Some(1.0));
        assert_eq!(phase(0.0, 10.0, 0.0, 0.5), Some(0.0));
        assert_eq!(phase(1.0, 1.0, 0.0, 1.15), None);
        // Neither a current that flows back nor hours that are over give anything back.
        assert_eq!((phase(-1.0, 10.0, 7.0, 1.15), phase(1.0, -10.0, 7.0, 1.15)), (Some(0.0), Some(0.0)));
    }

    #[test]
    fn no_charging_current_never_comes_back() {
        assert_eq!(recharge(7.0, 0.0), None);
        assert!(recharge(7.0, 0.3).is_some_and(|h| (h - 20.740_74).abs() < 1e-5));
    }

    /// Capacity by temperature: 40 °C 102 %, 25 °C 100 %, 0 °C 85 %, −15 °C 65 % (VRLA data sheet).
    #[test]
    fn straight_lines_between_and_flat_outside() {
        let points = [(-15.0, 0.65), (0.0, 0.85), (25.0, 1.0), (40.0, 1.02)];
        for (at, factor) in
            [(-40.0, 0.65), (-15.0, 0.65), (0.0, 0.85), (20.0, 0.97), (25.0, 1.0), (40.0, 1.02), (80.0, 1.02)]
        {
            assert!(between(&points, at).is_some_and(|f| (f - factor).abs() < 1e-12), "{at}");
        }
        assert_eq!(between(&[], 20.0), None);
    }
}
