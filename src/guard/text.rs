//! What the rules share: patterns, and what stands around a place.

use regex::{Captures, Regex, RegexSet};
use std::ops::Range;
use std::sync::OnceLock;

/// A pattern of ours, compiled when it is first used.
#[derive(Debug)]
pub(super) struct Pattern {
    text: fn() -> String,
    /// `None` only if the text is no pattern at all, which the tests rule out; it then finds nothing.
    compiled: OnceLock<Option<Regex>>,
}

impl Pattern {
    /// The pattern that is written so.
    pub(super) const fn new(text: fn() -> String) -> Self {
        Self { text, compiled: OnceLock::new() }
    }

    /// Its text. Its word boundaries are those of plain letters: with those of all letters the engine has to go the slow
    /// way through every text that has a Ω in it.
    fn text(&self) -> String {
        (self.text)().replace(r"\b", r"(?-u:\b)")
    }

    fn compiled(&self) -> Option<&Regex> {
        self.compiled.get_or_init(|| Regex::new(&self.text()).ok()).as_ref()
    }

    /// Whether it is in a text.
    pub(super) fn is_in(&self, text: &str) -> bool {
        self.compiled().is_some_and(|compiled| compiled.is_match(text))
    }

    /// Everything that it finds in a text.
    pub(super) fn all<'t>(&self, text: &'t str) -> impl Iterator<Item = Captures<'t>> {
        self.compiled().into_iter().flat_map(move |compiled| compiled.captures_iter(text))
    }

    /// Every place of the group named `it`, or of the whole match where the pattern has no such group.
    pub(super) fn places(&self, text: &str) -> Vec<Range<usize>> {
        self.all(text).filter_map(|c| c.name("it").or_else(|| c.get(0)).map(|found| found.range())).collect()
    }
}

/// The patterns of a rule, looked for together: a text is gone through once for all of them. Those of all rules at once
/// are more than the engine has memory for, and take it forty times as long.
#[derive(Debug)]
pub(super) struct Forms {
    patterns: &'static [&'static Pattern],
    compiled: OnceLock<Option<RegexSet>>,
}

impl Forms {
    /// These patterns.
    pub(super) const fn new(patterns: &'static [&'static Pattern]) -> Self {
        Self { patterns, compiled: OnceLock::new() }
    }

    /// Whether one of them is in a text.
    pub(super) fn are_in(&self, text: &str) -> bool {
        let compile = || RegexSet::new(self.patterns.iter().map(|pattern| pattern.text())).ok();
        match self.compiled.get_or_init(compile) {
            Some(set) => set.is_match(text),
            // They are too large together.
            None => self.patterns.iter().any(|pattern| pattern.is_in(text)),
        }
    }

    /// Every place of every one of them.
    pub(super) fn places(&self, text: &str) -> Vec<Range<usize>> {
        self.patterns.iter().flat_map(|pattern| pattern.places(text)).collect()
    }
}

/// The text at a place.
pub(super) fn at(text: &str, place: Range<usize>) -> &str {
    text.get(place).unwrap_or_default()
}

/// Units that make a number before them a quantity.
static UNIT: Pattern = Pattern::new(|| {
    String::from(
        r"^\s?(?:[kKmMµuUnNpP]?(?:V|A|Ah|AH|W|Ω|F|H|Hz|HZ|m|R)|mV|mA|VA|kV|volts?|amps?|ohms?|watts?|k|K|mm2?|cm|metres?|h|hours?|min|minutes?|s|sec|seconds?|days?|years?|months?|%|dB|C|°C?|feet|ft|digits?|levers?|baud|screws?|cores?|times)(?:[^\p{L}\d]|$)",
    )
});

/// Whether what follows a place makes it a quantity: `400 mA`.
pub(super) fn is_quantity(text: &str, place: &Range<usize>) -> bool {
    let after = text.get(place.end..).unwrap_or_default();
    UNIT.is_in(after)
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
        assert!(UNIT.compiled().is_some());
        assert!(is_quantity("400 mA on AUX", &(0..3)));
        assert!(!is_quantity("4471 me", &(0..4)));
        assert!(is_year("since 2019", &(6..10)) && !is_year("is 2019", &(3..7)));
    }
}
