//! How a fact is known, in words.

use crate::model::{Cite, Standing, Unit};
use serde::Serialize;

/// How a fact is known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Known {
    /// Its sources as the card cites them, with commas; empty when there is none.
    pub cites: String,
    /// How far it can be relied on, in words.
    pub standing: &'static str,
    /// Both in one text.
    pub text: String,
    /// Whether it must be confirmed on site before anyone relies on it.
    pub confirm: bool,
}

/// How a fact with these cites is known.
#[must_use]
pub fn known(cites: &[Cite]) -> Known {
    let standing = Standing::of(cites);
    let words = words(standing);
    let list = cites.iter().map(one).collect::<Vec<_>>().join(", ");
    let said = cites.iter().any(|c| c.source == words);
    let text = match (list.is_empty(), said) {
        (true, _) => words.to_string(),
        (false, true) => list.clone(),
        (false, false) => format!("{list}: {words}"),
    };
    Known { cites: list, standing: words, text, confirm: standing.needs_confirming() }
}

/// How a block is known: by its own cites, else no better than the weakest of its terminals.
#[must_use]
pub fn known_block<'a>(unit: &Unit, own: &[Cite], marks: impl IntoIterator<Item = &'a String>) -> Known {
    if !own.is_empty() {
        return known(own);
    }
    let terminals = marks.into_iter().filter_map(|m| unit.terminal(m));
    let weakest = terminals.max_by_key(|t| Standing::of(&t.cite));
    known(weakest.map_or(&[], |t| t.cite.as_slice()))
}

/// For a line that states no fact: nothing is known, so nothing has a source.
#[must_use]
pub fn nothing() -> Known {
    Known { cites: String::new(), standing: "—", text: "—".into(), confirm: false }
}

/// One cite as the card writes it.
fn one(cite: &Cite) -> String {
    if cite.place.is_empty() { cite.source.clone() } else { format!("{} {}", cite.source, cite.place) }
}

/// A standing in words.
fn words(standing: Standing) -> &'static str {
    match standing {
        Standing::Confirmed => "confirmed, measured twice",
        Standing::Measured => "measured",
        Standing::Manual => "manual",
        Standing::LabelOnly => "confirm on site (label or hearsay only)",
        Standing::Unverified => "unverified, confirm on site",
    }
}

/// A value that may be not known, as text.
#[must_use]
pub fn or_not_known<T: ToString>(value: Option<&T>) -> String {
    value.map_or_else(|| "not known".to_string(), T::to_string)
}

/// A value that may be not asked, as text.
#[must_use]
pub fn or_not_asked<T: ToString>(value: Option<&T>) -> String {
    value.map_or_else(|| "not asked".to_string(), T::to_string)
}
