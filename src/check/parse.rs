//! Texts that have an inner form: dates, months, cores, fuses as found, cites.

use super::keys::words;
use super::value::Wrong;
use crate::model::{CoreUse, FuseFound};
use crate::source::{Node, Plain, Value};
use crate::units::{Amps, Quantity};
use jiff::civil::Date;

/// The largest whole number that a key takes.
pub(crate) const MOST: u32 = 1000;

/// A whole number.
pub(crate) fn count(node: &Node) -> Option<u32> {
    number(node)?.parse().ok().filter(|n| *n <= MOST)
}

/// A finite number above nothing.
pub(crate) fn factor(node: &Node) -> Option<f64> {
    number(node)?.parse().ok().filter(|n: &f64| n.is_finite() && *n > 0.0 && *n <= f64::from(MOST))
}

/// The text of a bare number.
fn number(node: &Node) -> Option<&str> {
    match &node.value {
        Value::Scalar(scalar) if scalar.plain == Plain::Number => Some(&scalar.text),
        _ => None,
    }
}

/// A day, `2026-11-03`.
pub(crate) fn date(text: &str) -> Option<Date> {
    let mut parts = text.split('-');
    let (year, month, day) = (digits(parts.next()?, 4)?, digits(parts.next()?, 2)?, digits(parts.next()?, 2)?);
    if parts.next().is_some() {
        return None;
    }
    Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

/// A month, `2023-04`.
pub(crate) fn month(text: &str) -> Option<(i16, i8)> {
    let (year, month) = text.split_once('-')?;
    let (year, month) = (digits(year, 4)?, i8::try_from(digits(month, 2)?).ok()?);
    ((1900..=2999).contains(&year) && (1..=12).contains(&month)).then_some((year, month))
}

/// A number of exactly so many digits.
fn digits(text: &str, many: usize) -> Option<i16> {
    if text.len() == many && text.bytes().all(|b| b.is_ascii_digit()) { text.parse().ok() } else { None }
}

/// Where a core is, and whose it is.
pub(crate) fn core(text: &str) -> Result<(CoreUse, Option<String>), Wrong> {
    let (place, item) = match text.split_once(" for ") {
        Some((place, item)) => (place.trim(), Some(item.trim())),
        None => (text.trim(), None),
    };
    let on = match place {
        "spare" => CoreUse::Spare,
        "broken" => CoreUse::Broken,
        "unknown" => CoreUse::Unknown,
        "none" => return Err(wrong("can't say where a core is", "write `spare` when it is on nothing")),
        "" => return Err(wrong("has nothing before ` for `", "write `MARK for ITEM` or `join NAME for ITEM`")),
        "join" => return Err(wrong("has no name", "write `join J1`: cores with one name are twisted together")),
        mark => match mark.strip_prefix("join ") {
            Some(name) => CoreUse::Join(name.trim().to_owned()),
            None => CoreUse::Mark(mark.to_owned()),
        },
    };
    let owned = matches!(on, CoreUse::Mark(_) | CoreUse::Join(_));
    match item {
        Some("") => Err(wrong("does not say for which item", "write `MARK for ITEM`")),
        Some(_) if !owned => Err(wrong("says whose an unused core is", "only a mark or a join has an owner")),
        item => Ok((on, item.map(str::to_owned))),
    }
}

fn wrong(message: &str, help: &str) -> Wrong {
    (message.to_owned(), help.to_owned())
}

/// A fuse as found: `1 A F`, `1 A`, `blown`, `bridged`, `missing`, `unknown`.
pub(crate) fn fuse(text: &str) -> Option<FuseFound> {
    let text = text.trim();
    match text {
        "blown" => return Some(FuseFound::Blown),
        "bridged" => return Some(FuseFound::Bridged),
        "missing" => return Some(FuseFound::Missing),
        "unknown" => return Some(FuseFound::Unknown),
        _ => {}
    }
    let rated = |text: &str| Amps::read(text).ok().filter(|amps| amps.get() > 0.0);
    let fitted = text
        .rsplit_once(' ')
        .and_then(|(rating, speed)| Some(FuseFound::Fitted(rated(rating)?, Some(words::value(&words::SPEED, speed)?))));
    fitted.or_else(|| rated(text).map(|rating| FuseFound::Fitted(rating, None)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_month_is_one_of_twelve() {
        assert_eq!((month("2023-01"), month("2023-12")), (Some((2023, 1)), Some((2023, 12))));
        for none in ["2023-00", "2023-13", "1899-06", "3000-06", "2023-6", "23-06", "2023"] {
            assert_eq!(month(none), None, "{none}");
        }
    }

    #[test]
    fn a_fuse_is_read_as_it_was_found() {
        for (text, found) in [
            ("blown", FuseFound::Blown),
            ("bridged", FuseFound::Bridged),
            (" missing ", FuseFound::Missing),
            ("unknown", FuseFound::Unknown),
        ] {
            assert_eq!(fuse(text), Some(found), "{text}");
        }
        let amps = |text| Amps::read(text).ok();
        assert_eq!(fuse("1.6 A"), amps("1.6 A").map(|rating| FuseFound::Fitted(rating, None)));
        for speed in ["F", "T"] {
            let fitted = |rating| FuseFound::Fitted(rating, words::value(&words::SPEED, speed));
            assert_eq!(fuse(&format!("250 mA {speed}")), amps("250 mA").map(fitted));
        }
        for none in ["", "0 A", "0 A F", "-1 A", "1 A X", "F"] {
            assert_eq!(fuse(none), None, "{none}");
        }
    }
}
