//! How each figure was worked out, beside its value in pack.json.

use super::figure::{Figure, Why};
use serde::Serialize;
use std::collections::BTreeMap;

/// The ways of a row's figures, by the key of the figure in that row. A figure that was given and not worked out has
/// none.
pub(super) type RowWays<'a> = BTreeMap<&'static str, Way<'a>>;

/// How one figure was worked out.
#[derive(Debug, Serialize)]
pub(super) struct Way<'a> {
    formula: &'a str,
    given: Vec<Given<'a>>,
}

/// A number put into the formula: its symbol, as a person writes it, and where it comes from.
#[derive(Debug, Serialize)]
struct Given<'a> {
    symbol: &'a str,
    value: &'a str,
    source: &'a str,
}

/// All ways of a pack, by their labels.
#[derive(Debug)]
pub(super) struct Ways<'a>(BTreeMap<&'a str, &'a Why>);

impl<'a> Ways<'a> {
    /// The ways in this list.
    pub(super) fn new(list: &'a [Why]) -> Self {
        Self(list.iter().map(|why| (why.label.as_str(), why)).collect())
    }

    /// The ways of these figures.
    pub(super) fn of<const N: usize>(&self, figures: [(&'static str, &Figure); N]) -> RowWays<'a> {
        figures.into_iter().filter_map(|(key, figure)| Some((key, self.one(figure)?))).collect()
    }

    fn one(&self, figure: &Figure) -> Option<Way<'a>> {
        let why = self.0.get(figure.why.as_deref()?)?;
        let given =
            why.given.iter().map(|input| Given { symbol: &input.symbol, value: &input.text, source: &input.origin });
        Some(Way { formula: &why.formula, given: given.collect() })
    }
}
