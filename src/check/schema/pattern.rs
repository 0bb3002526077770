//! Regular expressions (ECMA 262) for texts that have a form.

use super::super::keys::{Unit, words};

/// Any text that is not blank.
pub(super) const TEXT: &str = r"\S";
/// The same on one line.
pub(super) const NAME: &str =
    r"^[^\u0000-\u001f\u007f-\u009f]*[^\s\u0000-\u001f\u007f-\u009f][^\u0000-\u001f\u007f-\u009f]*$";
/// An id; two words are the survey's own.
pub(super) const ID: &str = r"^(?!(?:panel|board)$)[a-z0-9-]+$";
/// A day.
pub(super) const DATE: &str = r"^[0-9]{4}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|[12][0-9]))$";
/// A month.
pub(super) const MONTH: &str = r"^(?:19|2[0-9])[0-9]{2}-(?:0[1-9]|1[0-2])$";

/// What is printed beside a terminal or a fuse: no word of surveys.
pub(super) fn mark() -> String {
    format!("^(?!(?:spare|broken|unknown|none)$)(?!join )(?!.* for ){}", NAME.trim_start_matches('^'))
}

/// A colour, or two different ones.
pub(super) fn colour(names: &[&str]) -> String {
    let names = names.join("|");
    format!("^(?!([a-z]+)/\\1$)(?:{names})(?:/(?:{names}))?$")
}

/// Where a core is, and whose it is: a word that has no owner, or a mark or a join, with an owner or without. A word in
/// capitals would read as a mark.
pub(super) fn core() -> String {
    let words = ["spare", "broken", "unknown"].map(any_case).join("|");
    let slips = format!(r"(?!(?:{words})\s*$)(?!(?!join ){} )", any_case("join"));
    let owned =
        format!(r"(?!(?:spare|broken|unknown|none|join)(?: for .*)?\s*$)(?!\s* for ){slips}(?!.* for \s*$)\S.*");
    format!(r"^\s*(?:spare|broken|unknown|{owned})\s*$")
}

/// A word in capitals and small letters alike.
fn any_case(word: &str) -> String {
    word.chars().flat_map(|c| ['[', c, c.to_ascii_uppercase(), ']']).collect()
}

/// A fuse as found.
pub(super) fn fuse() -> String {
    let rating = amount(Unit::Amps, true);
    let speeds = words::names(&words::SPEED).join("|");
    format!(r"^\s*(?:blown|bridged|missing|unknown|{rating}(?:\s+(?:{speeds}))?)\s*$")
}

/// A quantity with its unit.
pub(super) fn quantity(unit: Unit, positive: bool) -> String {
    format!(r"^\s*{}\s*$", amount(unit, positive))
}

/// A number and its unit.
fn amount(unit: Unit, positive: bool) -> String {
    let (units, signed) = unit.units();
    let names: Vec<String> = units.iter().map(|(name, _)| escaped(name)).collect();
    let sign = if signed && !positive { "[+−-]?" } else { r"\+?" };
    let above = if positive { "(?=[0-9.]*[1-9])" } else { "" };
    let number = format!(r"{sign}{above}(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*(?:{})", names.join("|"));
    if unit == Unit::Ohms {
        let above = if positive { "(?=[0-9kKRM]*[1-9])" } else { "" };
        return format!("(?:{number}|{above}[0-9]+[kKRM][0-9]+)");
    }
    number
}

/// A unit's name with nothing in it that an expression takes for a sign of its own.
fn escaped(name: &str) -> String {
    name.chars().flat_map(|c| (!c.is_alphanumeric() && c.is_ascii()).then_some('\\').into_iter().chain([c])).collect()
}
