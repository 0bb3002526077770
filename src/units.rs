//! Quantities: each has a type, is finite by construction, reads itself from a string with its unit and
//! prints itself the way a person writes it.
//!
//! A quantity is held in one base unit (named at its type). Reading never accepts a bare number: `12` where
//! volts are due may be amperes to the one who typed it.

use serde::{Deserialize, Serialize};
use std::fmt;

/// A quantity that can be read from text such as `13.7 V`.
pub trait Quantity: Copy + Sized {
    /// What an error says was expected, for example "volts".
    const NAME: &'static str;
    /// A correct example to show beside an error.
    const EXAMPLE: &'static str;
    /// The units it can be written in, each with what it is worth in the base unit.
    const UNITS: &'static [(&'static str, f64)];
    /// The lowest value it can have, in the base unit.
    const LOWEST: f64;
    /// Reads `text`, or gives back what is wrong with it.
    ///
    /// # Errors
    /// When there is no unit, another quantity's unit, or no number.
    fn read(text: &str) -> Result<Self, Misread>;
    /// The value in the type's base unit.
    fn value(self) -> f64;
}

/// Why a text is not the quantity that was due.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misread {
    /// A number without a unit.
    NoUnit,
    /// A number, and a unit that does not belong to this quantity.
    WrongUnit(String),
    /// Not a number at all.
    NotANumber,
    /// A number too large to stand for anything, or below what the quantity can be.
    OutOfRange,
}

/// Splits `text` into a number, as its digits, and the unit after it.
fn split(text: &str) -> Result<(String, &str), Misread> {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|(i, c)| !(c.is_ascii_digit() || *c == '.' || (*i == 0 && matches!(c, '+' | '-' | '−'))))
        .map_or(text.len(), |(i, _)| i);
    let (number, unit) = text.split_at(end);
    let number = number.replace('−', "-");
    if !number.contains(|c: char| c.is_ascii_digit()) || number.ends_with('.') {
        return Err(Misread::NotANumber);
    }
    let value: f64 = number.parse().map_err(|_| Misread::NotANumber)?;
    if value.abs() > 1e12 {
        return Err(Misread::OutOfRange);
    }
    Ok((number, unit.trim()))
}

/// Reads a number and one of the units in `scale`, in the base unit.
fn read_scaled(text: &str, scale: &[(&str, f64)], lowest: f64) -> Result<f64, Misread> {
    let (number, unit) = split(text)?;
    if unit.is_empty() {
        return Err(Misread::NoUnit);
    }
    let (_, factor) =
        scale.iter().find(|(name, _)| *name == unit).ok_or_else(|| Misread::WrongUnit(unit.to_string()))?;
    let value = scaled(&number, *factor)?;
    if value < lowest { Err(Misread::OutOfRange) } else { Ok(value) }
}

/// A number times a factor, to the last bit: moving the point is left to the reader of numbers, so that `400 mA` is
/// 0.4 and `1.005 kΩ` is 1005, which multiplying would miss. Parts of an hour are divided.
fn scaled(number: &str, factor: f64) -> Result<f64, Misread> {
    const POWERS: [(f64, i32); 6] = [(1e-6, -6), (1e-3, -3), (1e-2, -2), (1.0, 0), (1e3, 3), (1e6, 6)];
    let power = POWERS.iter().find(|(value, _)| value.to_bits() == factor.to_bits());
    let read = |text: &str| text.parse::<f64>().map_err(|_| Misread::NotANumber);
    match power {
        Some((_, power)) => read(&format!("{number}e{power}")),
        None => Ok(read(number)? / (1.0 / factor).round()),
    }
}

/// A number with at most `places` decimals and no trailing zeros.
#[must_use]
pub fn plain(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_string() } else { text.to_string() }
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $noun:literal, $example:literal, $lowest:expr, $units:expr, $read:expr, $show:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
        pub struct $name(f64);

        impl $name {
            /// Wraps a value in the base unit; `None` when it is not finite.
            #[must_use]
            pub fn new(value: f64) -> Option<Self> {
                value.is_finite().then_some(Self(value))
            }

            /// The value in the base unit.
            #[must_use]
            pub fn get(self) -> f64 {
                self.0
            }
        }

        impl Quantity for $name {
            const NAME: &'static str = $noun;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [(&'static str, f64)] = $units;
            const LOWEST: f64 = $lowest;
            fn read(text: &str) -> Result<Self, Misread> {
                $read(text, $units, $lowest).map(Self)
            }
            fn value(self) -> f64 {
                self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&$show(self.0))
            }
        }
    };
}

quantity!(
    /// Volts.
    Volts, "volts", "13.7 V", f64::MIN,
    &[("V", 1.0), ("mV", 0.001), ("kV", 1000.0)],
    read_scaled,
    |v| format!("{} V", plain(v, 2))
);
quantity!(
    /// Amperes.
    Amps, "amperes", "400 mA", 0.0,
    &[("A", 1.0), ("mA", 0.001), ("µA", 1e-6), ("μA", 1e-6), ("uA", 1e-6)],
    read_scaled,
    |v: f64| if v.abs() < 1.0 { format!("{} mA", plain(v * 1000.0, 1)) } else { format!("{} A", plain(v, 3)) }
);
quantity!(
    /// Ampere-hours.
    AmpHours, "ampere-hours", "7 Ah", 0.0,
    &[("Ah", 1.0), ("mAh", 0.001)],
    read_scaled,
    |v| format!("{} Ah", plain(v, 2))
);
quantity!(
    /// Metres.
    Metres, "metres", "14 m", 0.0,
    &[("m", 1.0), ("cm", 0.01), ("km", 1000.0)],
    read_scaled,
    |v| format!("{} m", plain(v, 1))
);
quantity!(
    /// Millimetres.
    Millimetres, "millimetres", "0.2 mm", 0.0,
    &[("mm", 1.0)],
    read_scaled,
    |v| format!("{} mm", plain(v, 3))
);
quantity!(
    /// Square millimetres.
    SquareMillimetres, "square millimetres", "0.22 mm2", 0.0,
    &[("mm2", 1.0), ("mm²", 1.0)],
    read_scaled,
    |v| format!("{} mm²", plain(v, 3))
);
quantity!(
    /// A length of time, in hours.
    Hours, "hours, minutes or seconds", "12 h", 0.0,
    TIMES,
    read_scaled,
    show_time
);
quantity!(
    /// Degrees Celsius.
    Celsius, "degrees Celsius", "20 C", -273.15,
    &[("C", 1.0), ("°C", 1.0)],
    read_scaled,
    |v| format!("{} °C", plain(v, 1))
);
quantity!(
    /// A fraction of one, written in per cent.
    Percent, "per cent", "5 %", 0.0,
    &[("%", 0.01)],
    read_scaled,
    |v| format!("{} %", plain(v * 100.0, 2))
);
quantity!(
    /// Ohms.
    Ohms, "ohms", "4.7 kΩ", 0.0,
    OHMS,
    read_ohms,
    show_ohms
);

impl Celsius {
    /// The temperature for which wires and cards are given, and that is taken where nobody says another.
    pub const ORDINARY: Self = Self(20.0);
}

impl Amps {
    /// The value in whole nanoamperes, for sums that must not depend on the order of adding.
    #[must_use]
    pub fn nanoamperes(self) -> i64 {
        #[expect(clippy::cast_possible_truncation, reason = "a quantity is at most 1e12, and a cast saturates")]
        let whole = (self.0 * 1e9).round() as i64;
        whole
    }
}

impl Ohms {
    /// Whether two resistances are the same value, whatever way they were written.
    #[must_use]
    pub fn same(self, other: Self) -> bool {
        (self.0 - other.0).abs() <= 1e-9 * self.0.abs().max(other.0.abs())
    }
}

/// Units of time, in hours. Minutes are divided, so that 15 min is a quarter to the last bit.
const TIMES: &[(&str, f64)] = &[("h", 1.0), ("min", 1.0 / 60.0), ("s", 1.0 / 3600.0)];

fn show_time(hours: f64) -> String {
    let minutes = hours * 60.0;
    if hours >= 1.0 || hours == 0.0 {
        format!("{} h", plain(hours, 1))
    } else if minutes >= 1.0 {
        format!("{} min", plain(minutes, 1))
    } else {
        format!("{} s", plain(minutes * 60.0, 0))
    }
}

/// Units of resistance. Ω stands twice in Unicode: the Greek letter and the ohm sign.
const OHMS: &[(&str, f64)] = &[
    ("Ω", 1.0),
    ("\u{2126}", 1.0),
    ("ohm", 1.0),
    ("ohms", 1.0),
    ("R", 1.0),
    ("mΩ", 0.001),
    ("kΩ", 1e3),
    ("k\u{2126}", 1e3),
    ("k", 1e3),
    ("K", 1e3),
    ("kohm", 1e3),
    ("kohms", 1e3),
    ("KΩ", 1e3),
    ("MΩ", 1e6),
    ("M\u{2126}", 1e6),
    ("M", 1e6),
    ("Mohm", 1e6),
];

/// Reads a resistance, also in the form of IEC 60062 where the letter stands for the point: `4k7`, `4R7`.
fn read_ohms(text: &str, scale: &[(&str, f64)], lowest: f64) -> Result<f64, Misread> {
    let trimmed = text.trim();
    if let Some(at) = trimmed.find(['k', 'K', 'R', 'M']) {
        let (whole, rest) = (&trimmed[..at], &trimmed[at + 1..]);
        let digits = |s: &str| !s.is_empty() && s.chars().all(|c| c.is_ascii_digit());
        if digits(whole) && digits(rest) {
            let factor = match &trimmed[at..=at] {
                "R" => 1.0,
                "M" => 1e6,
                _ => 1e3,
            };
            let value = scaled(&format!("{whole}.{rest}"), factor)?;
            return if value > 1e12 { Err(Misread::OutOfRange) } else { Ok(value) };
        }
    }
    read_scaled(text, scale, lowest)
}

fn show_ohms(ohms: f64) -> String {
    let size = ohms.abs();
    if size >= 1e6 {
        format!("{} MΩ", plain(ohms / 1e6, 3))
    } else if size >= 1e3 {
        format!("{} kΩ", plain(ohms / 1e3, 3))
    } else if size >= 100.0 {
        format!("{} Ω", plain(ohms, 1))
    } else {
        format!("{} Ω", plain(ohms, 2))
    }
}

/// A window of two quantities, the lower first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Window<T> {
    /// The low end, inclusive.
    pub low: T,
    /// The high end, inclusive.
    pub high: T,
}

impl<T: fmt::Display> fmt::Display for Window<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} to {}", self.low, self.high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_people_write() {
        assert_eq!(Ohms::read("4.7 kΩ").map(Ohms::get), Ok(4700.0));
        for text in ["4k7", "4700 ohm", "4700R", "4.7k", "4K7"] {
            assert_eq!(Ohms::read(text).map(Ohms::get), Ok(4700.0), "{text}");
        }
        assert_eq!(Amps::read("400 mA").map(Amps::get), Ok(0.4));
        for text in ["1.005 kΩ", "1k005", "1005 Ω", "0.001005 MΩ", "1005000 mΩ"] {
            assert_eq!(Ohms::read(text).map(Ohms::get), Ok(1005.0), "{text}");
        }
        assert_eq!(Hours::read("90 s").map(Hours::get), Ok(0.025));
        assert_eq!(Hours::read("15 min").map(Hours::get), Ok(0.25));
        assert_eq!(Percent::read("5 %").map(Percent::get), Ok(0.05));
        assert_eq!(Celsius::read("-15 C").map(Celsius::get), Ok(-15.0));
    }

    #[test]
    fn refuses_bare_numbers_and_wrong_units() {
        assert_eq!(Volts::read("13.7"), Err(Misread::NoUnit));
        assert_eq!(Volts::read("13.7 A"), Err(Misread::WrongUnit("A".into())));
        assert_eq!(Volts::read("red"), Err(Misread::NotANumber));
        assert_eq!(Amps::read("-1 A"), Err(Misread::OutOfRange));
    }

    #[test]
    fn prints_as_people_write() {
        assert_eq!(Amps(0.4).to_string(), "400 mA");
        assert_eq!(Ohms(4700.0).to_string(), "4.7 kΩ");
        assert_eq!(Hours(0.25).to_string(), "15 min");
        assert_eq!(Volts(13.70).to_string(), "13.7 V");
    }
}
