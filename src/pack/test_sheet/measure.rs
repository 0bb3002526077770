//! One reading: where, when, and what it must be.

use crate::pack::figure::{Figure, steady};
use crate::units::{Quantity, Window};
use serde::Serialize;
use std::fmt::Display;

/// One reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Measure {
    /// Its number on the sheet, `C4`.
    pub no: String,
    /// The item, input, output or supply it is about.
    pub about: String,
    /// What is measured, for a reader.
    pub what: String,
    /// In which state, and with what disconnected.
    pub state: String,
    /// Where the probes go.
    pub probes: String,
    /// What must be read.
    pub must: Must,
    /// What the board must report then; empty when it reports nothing.
    pub reports: String,
    /// What is wrong already by the figures; empty when nothing is.
    pub warn: &'static str,
}

/// What must be read.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Must {
    /// As a person writes it; `not known` when it is not.
    pub text: String,
    /// The unit of the numbers below.
    pub unit: &'static str,
    /// The unit as the text has it, for the blank.
    pub blank: &'static str,
    /// The figure expected.
    pub expected: Option<f64>,
    /// The lowest that will do.
    pub low: Option<f64>,
    /// The highest that will do.
    pub high: Option<f64>,
    /// The least of the window that a reading is held against; neither end: it is held against nothing.
    pub least: Option<f64>,
    /// The most of that window.
    pub most: Option<f64>,
    /// Whether it must be open, over range.
    pub open: bool,
}

/// What a reading is to the window that it was held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Within it.
    Within,
    /// Outside.
    Outside,
    /// There is no window: the figure is only about, or not known.
    NoWindow,
}

/// A window takes in a reading that is this much of it beyond its end: what a conversion of units rounds off.
const SPARE: f64 = 1e-9;

impl Must {
    /// Only words: not known, or open.
    pub(super) fn words(text: impl Into<String>, unit: &'static str) -> Self {
        let text = text.into();
        let blank = printed(&text, unit);
        Self { text, unit, blank, expected: None, low: None, high: None, least: None, most: None, open: false }
    }

    /// Held against this window.
    pub(super) fn held(self, least: Option<f64>, most: Option<f64>) -> Self {
        Self { least, most, ..self }
    }

    /// What a reading is to its window, in the unit of its numbers; infinite: over range.
    #[must_use]
    pub fn hold(&self, read: f64) -> Held {
        if self.open {
            return if read.is_infinite() { Held::Within } else { Held::Outside };
        }
        let spare = |end: f64| SPARE * end.abs().max(1.0);
        match (self.least, self.most) {
            (None, None) => Held::NoWindow,
            (least, _) if least.is_some_and(|least| read < least - spare(least)) => Held::Outside,
            (_, most) if most.is_some_and(|most| read > most + spare(most)) => Held::Outside,
            _ => Held::Within,
        }
    }

    /// About so much: volts of a real supply, a current that devices draw; `None`: not known.
    pub(super) fn about<Q: Quantity + Display>(value: Option<Q>, unit: &'static str) -> Self {
        let exact = Self::given(value, unit);
        let text = if exact.expected.is_some() { format!("about {}", exact.text) } else { exact.text.clone() };
        Self { text, ..exact }
    }

    /// A figure that was worked out, about.
    pub(super) fn worked(figure: &Figure, unit: &'static str) -> Self {
        Self { expected: figure.value, ..Self::words(about(figure), unit) }
    }

    /// A figure that a card gives; `None`: not known.
    pub(super) fn given<Q: Quantity + Display>(value: Option<Q>, unit: &'static str) -> Self {
        let text = value.map_or_else(|| "not known".to_string(), |v| v.to_string());
        Self { expected: value.map(|v| steady(v.value())), ..Self::words(text, unit) }
    }

    /// The same, within a window that a card gives.
    pub(super) fn within<Q: Quantity + Display>(self, window: Option<Window<Q>>) -> Self {
        let Some(window) = window else { return self };
        let text = match self.expected {
            Some(_) => format!("{}; never outside {window}", self.text),
            None => format!("the figure is not known; never outside {window}"),
        };
        let (low, high) = (Some(steady(window.low.value())), Some(steady(window.high.value())));
        Self { text, low, high, ..self.held(low, high) }
    }

    /// A current: about what the figure says, never more than its limit.
    pub(super) fn at_most(figure: &Figure, limit: &Figure) -> Self {
        let most =
            if limit.value.is_some() { format!("at most {}", limit.text) } else { "its limit is not known".into() };
        let text = format!("{}; {most}", about(figure));
        Self { expected: figure.value, high: limit.value, ..Self::words(text, "A").held(None, limit.value) }
    }
}

/// A figure's text with `about`; as it is when it is not known.
fn about(figure: &Figure) -> String {
    if figure.value.is_some() { format!("about {}", figure.text) } else { figure.text.clone() }
}

/// The unit that a text's first number has; `unit` when there is none.
fn printed(text: &str, unit: &'static str) -> &'static str {
    let words = || text.split([' ', ';', ',', ')']);
    let units = ["mA", "kΩ", "MΩ", "mV", "V", "A", "Ω", "Ah", "mAh"];
    words().find_map(|word| units.into_iter().find(|u| *u == word)).unwrap_or(unit)
}

impl Measure {
    /// A reading that has no number on the sheet yet.
    pub(super) fn new(about: &str, what: impl Into<String>) -> Self {
        Self {
            no: String::new(),
            about: about.into(),
            what: what.into(),
            state: String::new(),
            probes: String::new(),
            must: Must::words("not known", ""),
            reports: String::new(),
            warn: "",
        }
    }

    /// In this state.
    pub(super) fn when(self, state: impl Into<String>) -> Self {
        Self { state: state.into(), ..self }
    }

    /// With the probes here.
    pub(super) fn at(self, probes: impl Into<String>) -> Self {
        Self { probes: probes.into(), ..self }
    }

    /// With this to be read.
    pub(super) fn reads(self, must: Must) -> Self {
        Self { must, ..self }
    }

    /// With what the figures say of it.
    pub(super) fn judged(self, ok: Option<bool>) -> Self {
        let warn = if ok == Some(false) { "FAILS BY THE FIGURES: settle it first" } else { "" };
        Self { warn, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_is_held_against_its_window_alone() {
        let must = Must::words("9 V to 16 V", "V").held(Some(9.0), Some(16.0));
        let read = |must: &Must, values: &[f64]| values.iter().map(|value| must.hold(*value)).collect::<Vec<_>>();
        assert_eq!(read(&must, &[9.0, 16.0, 8.99, 16.01]), [Held::Within, Held::Within, Held::Outside, Held::Outside]);
        assert_eq!(read(&Must::words("about 13.7 V", "V"), &[0.0]), [Held::NoWindow]);
        let open = Must { open: true, ..Must::words("open", "Ω") };
        assert_eq!(read(&open, &[f64::INFINITY, 12.0]), [Held::Within, Held::Outside]);
        assert_eq!(read(&must, &[f64::INFINITY]), [Held::Outside]);
    }
}
