//! What the rules share: patterns, and what stands around a place.

use regex::Regex;
use std::ops::Range;
use std::sync::LazyLock;

/// A pattern of ours, compiled when it is first used. `None` only if it is not a pattern at all, which the tests rule
/// out; it then finds nothing.
pub(super) type Pattern = LazyLock<Option<Regex>>;

/// Compiles a pattern of ours. Its word boundaries are those of plain letters: with those of all letters the engine has to
/// go the slow way through every text that has a Ω in it.
pub(super) fn pattern(text: &str) -> Option<Regex> {
    Regex::new(&text.replace(r"\b", r"(?-u:\b)")).ok()
}

/// Every place of the group named `it`, or of the whole match where the pattern has no such group.
pub(super) fn places(pattern: &Pattern, text: &str) -> Vec<Range<usize>> {
    let Some(pattern) = pattern.as_ref() else { return Vec::new() };
    pattern.captures_iter(text).filter_map(|c| c.name("it").or_else(|| c.get(0)).map(|found| found.range())).collect()
}

/// The text at a place.
pub(super) fn at(text: &str, place: Range<usize>) -> &str {
    text.get(place).unwrap_or_default()
}

/// Units that make a number before them a quantity.
static UNIT: Pattern = LazyLock::new(|| {
    pattern(
        r"^\s?(?:[kKmMµuUnNpP]?(?:V|A|Ah|AH|W|Ω|F|H|Hz|HZ|m|R)|mV|mA|VA|kV|volts?|amps?|ohms?|watts?|k|K|mm2?|cm|metres?|h|hours?|min|minutes?|s|sec|seconds?|days?|years?|months?|%|dB|C|°C?|feet|ft|digits?|levers?|baud|screws?|cores?|times)(?:[^\p{L}\d]|$)",
    )
});

/// Whether what follows a place makes it a quantity: `400 mA`.
pub(super) fn is_quantity(text: &str, place: &Range<usize>) -> bool {
    let after = text.get(place.end..).unwrap_or_default();
    UNIT.as_ref().is_some_and(|unit| unit.is_match(after))
}

/// Whether a number is a year that the word before it makes one: `in 2019`.
pub(super) fn is_year(text: &str, place: &Range<usize>) -> bool {
    let number = at(text, place.clone());
    let is_like_one = number.len() == 4 && (number.starts_with("19") || number.starts_with("20"));
    let ahead = text.get(..place.start).unwrap_or_default().split_whitespace().next_back().unwrap_or_default();
    let ahead = ahead.to_lowercase();
    is_like_one
        && ["in", "since", "from", "until", "till", "before", "after", "by", "of", "about"].contains(&ahead.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pattern_of_units_is_a_pattern() {
        assert!(UNIT.is_some());
        assert!(is_quantity("400 mA on AUX", &(0..3)));
        assert!(!is_quantity("4471 me", &(0..4)));
        assert!(is_year("since 2019", &(6..10)) && !is_year("is 2019", &(3..7)));
    }
}
