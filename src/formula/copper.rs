//! What a core's resistance is.

use std::f64::consts::PI;

/// Resistivity of annealed copper at 20 °C in Ω·mm²/m (IEC 60028).
pub const RESISTIVITY: f64 = 0.017_241;

/// How much copper's resistance grows for each kelvin, from 20 °C (IEC 60028).
pub const TEMPERATURE_COEFFICIENT: f64 = 0.003_93;

/// Ohms of one metre at 20 °C, from a cross-section in mm²; `None` for none.
#[must_use]
pub fn per_metre_of_area(area: f64) -> Option<f64> {
    (area > 0.0).then(|| RESISTIVITY / area)
}

/// The cross-section in mm² of `count` strands, each `diameter` mm thick.
#[must_use]
pub fn area_of_strands(count: u32, diameter: f64) -> f64 {
    f64::from(count) * PI * diameter * diameter / 4.0
}

/// A resistance known at 20 °C, at `celsius`.
#[must_use]
pub fn at_temperature(ohms_at_20: f64, celsius: f64) -> f64 {
    ohms_at_20 * (1.0 + TEMPERATURE_COEFFICIENT * (celsius - 20.0))
}
