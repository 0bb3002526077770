//! How far a figure is from passing: the arithmetic of cures.

use super::copper::{RESISTIVITY, at_temperature};
use super::finite;
use super::fuse::RATINGS;
use super::preferred::E24;
use super::sum::SPARE;

/// The smallest standard fuse that is rated for a current; `None` above the largest.
#[must_use]
pub fn next_fuse(amps: f64) -> Option<f64> {
    RATINGS.into_iter().find(|rating| amps <= rating + SPARE)
}

/// What a figure is above its limit; `None` when it is within it.
#[must_use]
pub fn excess(figure: Option<f64>, limit: Option<f64>) -> Option<f64> {
    let (figure, limit) = figure.zip(limit)?;
    (figure > limit + SPARE).then_some(figure - limit)
}

/// The longest run in metres over which a line of `amps` loses no more than `spare` volts; `None` when any length
/// does, or none.
#[must_use]
pub fn longest_run(spare: f64, amps: f64, ohms_per_metre: f64) -> Option<f64> {
    finite(spare / (amps * ohms_per_metre)).filter(|metres| *metres >= 0.0)
}

/// The smallest cross-section in mm² of copper whose cores, `metres` long at `celsius`, lose no more than `spare`
/// volts with `amps` along the line. `None` when none does.
#[must_use]
pub fn least_area(spare: f64, amps: f64, metres: f64, celsius: f64) -> Option<f64> {
    (spare > 0.0).then(|| finite(at_temperature(RESISTIVITY, celsius) * metres * amps / spare))?
}

/// So many cores side by side carry `amps` without more than `rating` in each; `None` without a rating.
#[must_use]
pub fn cores_for(amps: f64, rating: f64) -> Option<usize> {
    let cores = finite((amps - SPARE) / rating)?.ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to be a small whole number")]
    (cores <= 1e6).then_some(cores as usize)
}

/// The largest number from `low` to `high` that passes, to within a millionth of the range; for a test that passes
/// up to some number and not above it. `None` when `low` does not pass.
#[must_use]
pub fn largest(low: f64, high: f64, passes: impl Fn(f64) -> bool) -> Option<f64> {
    if !passes(low) {
        return None;
    }
    if passes(high) {
        return Some(high);
    }
    let halve = |(good, bad): (f64, f64), _| {
        let middle = f64::midpoint(good, bad);
        if passes(middle) { (middle, bad) } else { (good, middle) }
    };
    finite((0..60).fold((low, high), halve).0)
}

/// The smallest number from `low` to `high` that passes, for a test that passes from some number on. `None` when
/// `high` does not pass.
#[must_use]
pub fn smallest(low: f64, high: f64, passes: impl Fn(f64) -> bool) -> Option<f64> {
    largest(-high, -low, |x| passes(-x)).map(|x| -x)
}

/// The E24 values from a tenth to ten times of a resistance, the nearest first (by ratio).
#[must_use]
pub fn e24_near(ohms: f64) -> Vec<f64> {
    let Some(decade) = finite(ohms.log10()).map(f64::floor) else { return Vec::new() };
    let decades = [-2.0, -1.0, 0.0].map(|step| 10_f64.powf(decade + step));
    let mut values: Vec<f64> = decades.iter().flat_map(|ten| E24.map(|value| value * ten)).collect();
    let apart = |value: &f64| (value / ohms).ln().abs();
    values.sort_by(|a, b| apart(a).total_cmp(&apart(b)));
    values
}

/// A number rounded up to whole steps, so that as much as is shown is enough.
#[must_use]
pub fn up(value: f64, step: f64) -> f64 {
    (value / step - 1e-6).ceil() * step
}

/// A number rounded down to whole steps, so that what is shown is not too much.
#[must_use]
pub fn down(value: f64, step: f64) -> f64 {
    (value / step + 1e-6).floor() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(figure: Option<f64>, expected: f64) {
        assert!(figure.is_some_and(|f| (f - expected).abs() < 1e-6 * expected.abs().max(1.0)), "{figure:?} {expected}");
    }

    #[test]
    fn what_equals_its_limit_is_not_over_it() {
        assert_eq!(excess(Some(1.0), Some(1.0)), None);
        assert_eq!(excess(Some(0.1 + 0.2), Some(0.3)), None, "whatever the last bit says");
        assert_eq!(excess(Some(2.0), Some(1.5)), Some(0.5));
        assert_eq!(excess(None, Some(1.5)), None);
    }

    /// 1.5 V to lose, 0.5 A along the line, 0.08 Ω/m: 1.5 / (0.5 · 0.08) = 37.5 m.
    #[test]
    fn the_longest_run_loses_what_there_is_to_lose() {
        near(longest_run(1.5, 0.5, 0.08), 37.5);
        assert_eq!(longest_run(-0.1, 0.5, 0.08), None);
        assert_eq!(longest_run(1.5, 0.0, 0.08), None);
    }

    /// 50 m, 0.5 A, 1.5 V: 3 Ω, 0.06 Ω/m; 0.017241 / 0.06 = 0.28735 mm² at 20 °C, 1.0393 times that at 30 °C.
    #[test]
    fn the_least_area_loses_what_there_is_to_lose() {
        near(least_area(1.5, 0.5, 50.0, 20.0), 0.287_35);
        near(least_area(1.5, 0.5, 50.0, 30.0), 0.287_35 * 1.0393);
        assert_eq!(least_area(0.0, 0.5, 50.0, 20.0), None);
    }

    /// 2.5 A over cores of 1 A: three; 2 A: two; nothing: one.
    #[test]
    fn cores_share_a_current() {
        assert_eq!([2.5, 2.0, 0.0].map(|amps| cores_for(amps, 1.0)), [Some(3), Some(2), Some(1)]);
        assert_eq!(cores_for(1.0, 0.0), None);
    }

    #[test]
    fn fuses_are_those_of_the_standard() {
        assert_eq!([0.3, 1.0, 1.1, 10.1].map(next_fuse), [Some(0.315), Some(1.0), Some(1.25), None]);
    }

    #[test]
    fn halving_finds_the_edge() {
        near(largest(0.0, 10.0, |x| x <= 3.7), 3.7);
        near(smallest(0.0, 10.0, |x| x >= 3.7), 3.7);
        assert_eq!(largest(0.0, 10.0, |_| false), None);
        assert_eq!(largest(0.0, 10.0, |_| true), Some(10.0));
        near(smallest(2.0, 10.0, |x| x >= 3.7), 3.7);
        assert_eq!(smallest(2.0, 10.0, |x| x >= 1.0), Some(2.0), "all of them pass");
        assert_eq!(smallest(2.0, 10.0, |x| x >= 11.0), None);
    }

    #[test]
    fn the_nearest_resistor_stands_first() {
        assert_eq!(e24_near(4700.0).first(), Some(&4700.0));
        assert_eq!(e24_near(4700.0).get(1), Some(&5100.0));
        assert_eq!(e24_near(0.0), Vec::<f64>::new());
    }

    #[test]
    fn rounding_keeps_to_the_safe_side() {
        near(Some(up(0.12301, 0.001)), 0.124);
        near(Some(up(0.123, 0.001)), 0.123);
        near(Some(down(21.39, 0.1)), 21.3);
        near(Some(down(21.3, 0.1)), 21.3);
    }
}
