//! What a cable's cores take from the volts of the source.

/// Volts left of `source` volts when the cores of a line carry `amps` in all (each core's own current, added up
/// along the line), each core being `metres` long at `ohms_per_metre`.
#[must_use]
pub fn volts_left(source: f64, amps: f64, ohms_per_metre: f64, metres: f64) -> f64 {
    source - amps * ohms_per_metre * metres
}

/// The longest run in metres that leaves at least `needs` volts of `source`; `None` when no run does, or when every run
/// does (no current, or cores without resistance).
#[must_use]
pub fn longest(source: f64, needs: f64, amps: f64, ohms_per_metre: f64) -> Option<f64> {
    let metres = (source - needs) / (amps * ohms_per_metre);
    (metres.is_finite() && metres >= 0.0).then_some(metres)
}

/// The length in metres of a closed loop of two cores that reads `ohms`, with `series` ohms in its contacts.
/// `None` when it reads less than its contacts, or the core has no resistance.
#[must_use]
pub fn length_of_loop(ohms: f64, series: f64, ohms_per_metre: f64) -> Option<f64> {
    let metres = (ohms - series) / (2.0 * ohms_per_metre);
    (metres.is_finite() && metres >= 0.0).then_some(metres)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A budget of 1 V on 0.16 Ω of loop a metre carries 30 mA over 208 m and 90 mA over 69 m (published copper
    /// figures, worked out).
    #[test]
    fn a_volt_carries_so_far() {
        let of = |amps: f64| longest(10.0, 9.0, 2.0 * amps, 0.08);
        assert!(of(0.03).is_some_and(|m| (m - 208.333_333).abs() < 1e-6));
        assert!(of(0.09).is_some_and(|m| (m - 69.444_444).abs() < 1e-6));
    }

    #[test]
    fn no_run_and_every_run() {
        assert_eq!(longest(9.0, 10.0, 1.0, 0.08), None);
        assert_eq!(longest(10.0, 9.0, 0.0, 0.08), None);
        assert_eq!(longest(10.0, 10.0, 0.0, 0.08), None);
    }
}
