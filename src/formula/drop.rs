//! What a cable's cores take from the volts of the source.

/// Volts left of `source` volts when the cores of a line carry `amps` in all (each core's own current, added up
/// along the line), each core being `metres` long at `ohms_per_metre`.
#[must_use]
pub fn volts_left(source: f64, amps: f64, ohms_per_metre: f64, metres: f64) -> f64 {
    source - amps * ohms_per_metre * metres
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

    /// Copper of 0.22 mm² at 20 °C has 0.017241 Ω·mm²/m over its cross-section (IEC 60028) a metre.
    #[test]
    fn a_loop_is_as_long_as_its_cores_alone_say() {
        let metre = 0.017_241 / 0.22;
        let found = length_of_loop(2.0 * 50.0 * metre + 2.0, 2.0, metre).expect("a length");
        assert!((found - 50.0).abs() < 1e-9, "{found}");
        assert_eq!(length_of_loop(2.0, 2.0, metre), Some(0.0));
        assert_eq!(length_of_loop(1.9, 2.0, metre), None, "less than its contacts");
        assert_eq!(length_of_loop(5.0, 2.0, 0.0), None, "a core without resistance");
    }
}
