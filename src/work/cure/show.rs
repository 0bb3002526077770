//! Numbers of cures as a person writes them, rounded to the side on which they still cure.

use crate::formula::cure::{down, up};
use crate::units::{AmpHours, Amps, Hours, Metres, Ohms, SquareMillimetres, Volts};
use std::fmt::Display;

/// A quantity, or a dash for a number that is none.
fn text(quantity: Option<impl Display>) -> String {
    quantity.map_or_else(|| "—".to_string(), |q| q.to_string())
}

/// At least so many amperes.
pub(super) fn amps_up(value: f64) -> String {
    text(Amps::new(up(value, if value < 1.0 { 1e-4 } else { 1e-3 })))
}

/// At most so many amperes.
pub(super) fn amps_down(value: f64) -> String {
    text(Amps::new(down(value, if value < 1.0 { 1e-4 } else { 1e-3 })))
}

/// Amperes.
pub(super) fn amps(value: f64) -> String {
    text(Amps::new(value))
}

/// At most so many metres.
pub(super) fn metres_down(value: f64) -> String {
    text(Metres::new(down(value, 0.1)))
}

/// Metres.
pub(super) fn metres(value: f64) -> String {
    text(Metres::new(value))
}

/// At least so many square millimetres.
pub(super) fn area_up(value: f64) -> String {
    text(SquareMillimetres::new(up(value, 0.01)))
}

/// Volts.
pub(super) fn volts(value: f64) -> String {
    text(Volts::new(value))
}

/// At least so many volts.
pub(super) fn volts_up(value: f64) -> String {
    text(Volts::new(up(value, 0.01)))
}

/// At most so many volts.
pub(super) fn volts_down(value: f64) -> String {
    text(Volts::new(down(value, 0.01)))
}

/// Ohms.
pub(super) fn ohms(value: f64) -> String {
    text(Ohms::new(value))
}

/// At least so many ohms.
pub(super) fn ohms_up(value: f64) -> String {
    let step = if value < 100.0 { 0.01 } else { 1.0 };
    text(Ohms::new(up(value, step)))
}

/// Less than so many ohms: the end of a band does not belong to it.
pub(super) fn ohms_under(value: f64) -> String {
    let step = if value < 100.0 { 0.01 } else { 1.0 };
    text(Ohms::new(down((value - step * 0.1).max(0.0), step)))
}

/// At least so many ampere-hours.
pub(super) fn ah_up(value: f64) -> String {
    text(AmpHours::new(up(value, 0.01)))
}

/// At most so many ampere-hours.
pub(super) fn ah_down(value: f64) -> String {
    text(AmpHours::new(down(value, 0.01)))
}

/// At most so long.
pub(super) fn hours_down(value: f64) -> String {
    text(Hours::new(down(value, if value >= 1.0 { 0.1 } else { 1.0 / 600.0 })))
}

/// `a or b`, `a, b or c`.
pub(super) fn either(ways: &[String]) -> String {
    match ways {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_rounded_to_the_side_on_which_they_still_cure() {
        assert_eq!((amps_up(0.123_41), amps_up(1.234_1)), ("123.5 mA".into(), "1.235 A".into()));
        assert_eq!((amps_down(0.123_49), amps_down(1.234_9)), ("123.4 mA".into(), "1.234 A".into()));
        assert_eq!((ohms_up(19.841), ohms_up(470.2)), ("19.85 Ω".into(), "471 Ω".into()));
        assert_eq!((ohms_under(19.84), ohms_under(470.0)), ("19.83 Ω".into(), "469 Ω".into()));
        assert_eq!((volts_up(0.401), volts_down(0.409)), ("0.41 V".into(), "0.4 V".into()));
        assert_eq!((hours_down(5.678), hours_down(0.759)), ("5.6 h".into(), "45.5 min".into()));
        assert_eq!((ah_up(6.901), ah_down(6.909)), ("6.91 Ah".into(), "6.9 Ah".into()));
    }
}
