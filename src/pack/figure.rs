//! A number of the pack: once as text, once as its JSON value, with the way it was worked out.

use crate::formula::Worked;
use crate::units::Quantity;
use serde::Serialize;
use std::fmt::Display;

/// A number that pages show and pack.json gives.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// As a person writes it, with its unit; `not known` when it is not.
    pub text: String,
    /// In the base unit of pack.json; `None`: not known, or an open circuit.
    pub value: Option<f64>,
    /// The label of its [`Why`], when it was worked out.
    pub why: Option<String>,
}

impl Figure {
    /// A number that was given, not worked out.
    #[must_use]
    pub fn given<Q: Quantity + Display>(value: Option<f64>, unit: impl Fn(f64) -> Option<Q>) -> Self {
        Self { text: text(value, unit), value: value.map(steady), why: None }
    }

    /// An open circuit: known, and no resistance to state.
    #[must_use]
    pub fn open() -> Self {
        Self { text: "open".into(), value: None, why: None }
    }
}

/// How a number was worked out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Why {
    /// What points to it.
    pub label: String,
    /// The number it is about, in words.
    pub of: String,
    /// The value as text.
    pub text: String,
    /// The formula, in symbols.
    pub formula: String,
    /// The numbers put in, and where they come from.
    pub given: Vec<Input>,
}

/// A number put into a formula.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// Its symbol.
    pub symbol: String,
    /// As a person writes it.
    pub text: String,
    /// Where it comes from.
    pub origin: String,
}

/// All ways in which the numbers of one pack were worked out, in page order.
#[derive(Debug, Default)]
pub struct Whys {
    list: Vec<Why>,
}

impl Whys {
    /// A number with its way: `key` is its family, `of` what it is.
    pub fn figure<Q: Quantity + Display>(
        &mut self,
        key: &str,
        of: &str,
        worked: &Worked,
        unit: impl Fn(f64) -> Option<Q>,
    ) -> Figure {
        self.worded(key, of, worked, Figure::given(worked.value, unit))
    }

    /// The same, of a number that has its text already.
    pub fn worded(&mut self, key: &str, of: &str, worked: &Worked, mut figure: Figure) -> Figure {
        if worked.formula.is_empty() {
            return figure;
        }
        let label = format!("{key}-{}", self.list.iter().filter(|w| family(&w.label) == key).count() + 1);
        let given = worked.given.iter().map(|g| Input {
            symbol: g.symbol.clone(),
            text: g.text.clone(),
            origin: g.origin.clone(),
        });
        self.list.push(Why {
            label: label.clone(),
            of: of.to_string(),
            text: figure.text.clone(),
            formula: worked.formula.clone(),
            given: given.collect(),
        });
        figure.why = Some(label);
        figure
    }

    /// Hands out the list.
    #[must_use]
    pub fn into_list(self) -> Vec<Why> {
        self.list
    }
}

/// The part of a label before its number.
fn family(label: &str) -> &str {
    label.rsplit_once('-').map_or(label, |(family, _)| family)
}

/// A number as text; `not known` when there is none.
fn text<Q: Quantity + Display>(value: Option<f64>, unit: impl Fn(f64) -> Option<Q>) -> String {
    value.and_then(unit).map_or_else(|| "not known".to_string(), |q| q.to_string())
}

/// A number without the noise of its last bits: nine decimals are far below anything a meter shows.
#[must_use]
pub fn steady(value: f64) -> f64 {
    let scaled = value * 1e9;
    if scaled.abs() < 1e15 { scaled.round() / 1e9 } else { value }
}
