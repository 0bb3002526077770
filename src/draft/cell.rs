//! Cells that hold a quantity, a polarity or a mark.

use crate::check::{forbidden_mark, misread};
use crate::units::{Amps, Quantity, Volts};

/// What is wrong with a cell, and what to write instead.
pub(super) type Wrong = (String, String);

/// What stands for nothing in a cell.
pub(super) fn is_blank(text: &str) -> bool {
    matches!(text, "" | "-" | "–" | "—" | "n/a" | "N/A" | "?")
}

/// The unit that a head states: `Volts (V)`, `mA`.
pub(super) fn unit_of(head: &str) -> Option<&'static str> {
    let words = head.split(|c: char| !c.is_alphanumeric());
    words.into_iter().find_map(|word| match word {
        "mA" | "ma" | "milliamps" => Some("mA"),
        "A" | "amps" | "Amps" | "amperes" => Some("A"),
        "mV" => Some("mV"),
        "V" | "v" | "volts" | "Volts" => Some("V"),
        _ => None,
    })
}

/// A mark.
pub(super) fn mark(text: &str) -> Result<String, Wrong> {
    if let Some(wrong) = forbidden_mark(text) {
        return Err((format!("`{text}` {}", wrong.0), wrong.1));
    }
    let is_day = text.len() == 10
        && text.bytes().enumerate().all(|(at, b)| if matches!(at, 4 | 7) { b == b'-' } else { b.is_ascii_digit() });
    if is_day {
        let help = "a spreadsheet makes days of marks such as 1-2: format the column as text and type it again";
        return Err((format!("`{text}` is a day, not a mark"), help.to_owned()));
    }
    Ok(text.to_owned())
}

/// A polarity; `None` for words that are none.
pub(super) fn polarity(text: &str) -> Option<&'static str> {
    match text.to_lowercase().as_str() {
        "+" | "positive" | "pos" | "plus" | "+ve" => Some("positive"),
        "-" | "−" | "negative" | "neg" | "minus" | "-ve" => Some("negative"),
        _ => None,
    }
}

/// Two quantities of volts, low and high; `None` for one alone, which is no window.
pub(super) fn window(text: &str, unit: Option<&str>) -> Result<Option<(String, String)>, Wrong> {
    let Some((low, high)) = halves(text) else {
        return quantity::<Volts>(text, unit).map(|_| None);
    };
    let high = quantity::<Volts>(high, unit)?;
    let stated = high.trim_start_matches(|c: char| !c.is_alphabetic());
    let low = quantity::<Volts>(low, unit.or(Some(stated)))?;
    Ok(Some((low, high)))
}

/// The two ends of `13.2-14.2 V`, `13.2 to 14.2 V`, `13.2 … 14.2 V`.
fn halves(text: &str) -> Option<(&str, &str)> {
    let ends = |between: &str| {
        let (low, high) = text.split_once(between)?;
        let (low, high) = (low.trim(), high.trim());
        (low.contains(|c: char| c.is_ascii_digit()) && high.contains(|c: char| c.is_ascii_digit()))
            .then_some((low, high))
    };
    [" to ", "...", "…", "–", "—", "-"].into_iter().find_map(ends)
}

/// Amperes.
pub(super) fn amps(text: &str, unit: Option<&str>) -> Result<String, Wrong> {
    quantity::<Amps>(text, unit)
}

/// A quantity as a card writes it; a bare number takes the unit of its column's head.
fn quantity<Q: Quantity>(text: &str, unit: Option<&str>) -> Result<String, Wrong> {
    let is_bare = text.chars().all(|c| c.is_ascii_digit() || ".,+- ".contains(c));
    let whole = match unit {
        Some(unit) if is_bare => format!("{text} {unit}"),
        _ => text.to_owned(),
    };
    match Q::read(&whole) {
        Ok(_) => Ok(spaced(&whole)),
        Err(wrong) => {
            let help = format!("write it with its unit, for example `{}`, or put the unit into the head", Q::EXAMPLE);
            Err((misread(&whole, &wrong, Q::NAME), help))
        }
    }
}

/// `13.7V` as `13.7 V`.
fn spaced(text: &str) -> String {
    let at = text.find(|c: char| c.is_alphabetic() || c == 'µ').unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    format!("{} {unit}", number.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_need_a_unit_from_somewhere() {
        assert_eq!(amps("400 mA", None), Ok("400 mA".to_owned()));
        assert_eq!(amps("400", Some("mA")), Ok("400 mA".to_owned()));
        assert_eq!(amps("1A", Some("mA")), Ok("1 A".to_owned()));
        assert!(amps("400", None).is_err() && amps("12 V", None).is_err() && amps("0,4 A", None).is_err());
    }

    #[test]
    fn windows_are_two_quantities() {
        let window = |text, unit| window(text, unit).map(|w| w.map(|(low, high)| format!("{low}, {high}")));
        assert_eq!(window("13.2-14.2V", None), Ok(Some("13.2 V, 14.2 V".to_owned())));
        assert_eq!(window("13.2 V to 14.2 V", None), Ok(Some("13.2 V, 14.2 V".to_owned())));
        assert_eq!(window("10 … 15", Some("V")), Ok(Some("10 V, 15 V".to_owned())));
        assert_eq!(window("13.7 V", None), Ok(None));
        assert!(window("10-15", None).is_err() && window("about 12", None).is_err());
    }

    #[test]
    fn units_stand_in_heads() {
        assert_eq!(unit_of("Current (mA)"), Some("mA"));
        assert_eq!(unit_of("Volts"), Some("V"));
        assert_eq!(unit_of("Voltage"), None);
    }
}
