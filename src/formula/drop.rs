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
