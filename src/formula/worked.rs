//! A value with the formula and the numbers behind it.

use std::fmt::Display;

/// A number that was put into a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// Its symbol in the formula.
    pub symbol: String,
    /// The number as a person writes it, with its unit; `not known` when it is not.
    pub text: String,
    /// Where it comes from: a card and its cite, the survey, a standard, or an assumption.
    pub origin: String,
}

impl Given {
    /// A number with its symbol and its origin; without a value it reads `not known`.
    #[must_use]
    pub fn new<T: Display>(symbol: impl Into<String>, value: Option<T>, origin: impl Into<String>) -> Self {
        let text = value.map_or_else(|| "not known".to_string(), |v| v.to_string());
        Self { symbol: symbol.into(), text, origin: origin.into() }
    }
}

/// A value that was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// The value in its base unit; `None` when something it needs is not known.
    pub value: Option<f64>,
    /// The formula, in symbols.
    pub formula: String,
    /// The numbers put in.
    pub given: Vec<Given>,
}

impl Worked {
    /// A value with what is behind it. One that is not finite (a division by nothing) is *not known*.
    #[must_use]
    pub fn new(formula: impl Into<String>, given: Vec<Given>, value: Option<f64>) -> Self {
        Self { value: value.and_then(finite), formula: formula.into(), given }
    }
}

/// The value, when it is a number; never the zero that prints with a minus sign.
#[must_use]
pub fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_value_prints_as_minus_nothing_and_none_is_endless() {
        assert_eq!(finite(-0.0).map(|value| value.to_string()), Some("0".to_string()));
        assert_eq!(finite(-2.5), Some(-2.5));
        assert_eq!([finite(f64::NAN), finite(f64::INFINITY)], [None, None]);
    }
}
