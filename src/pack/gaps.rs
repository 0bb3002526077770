//! What the cards that packs use do not know, for the page beside the index.

use crate::gaps::{Gap, Kind};
use jiff::civil::Date;
use serde::Serialize;

/// The gaps of some cards, kind by kind, the most harmful first.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GapsView {
    /// How many there are.
    pub count: usize,
    /// How many surveys were asked.
    pub surveys: usize,
    /// The day from which two years are counted back; without one, no note is old.
    pub date: Option<String>,
    /// Those of each kind.
    pub kinds: Vec<GapsOfKind>,
}

/// The gaps of a kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GapsOfKind {
    /// The kind's word.
    pub word: &'static str,
    /// Its heading.
    pub heading: &'static str,
    /// What settles it.
    pub settles: &'static str,
    /// Its rows: what most surveys rest on first.
    pub rows: Vec<GapRow>,
}

/// A gap.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GapRow {
    /// The card.
    pub card: String,
    /// The mark, where it is about one; else empty.
    pub about: String,
    /// How many of the surveys rest on it.
    pub packs: usize,
    /// What is not known.
    pub says: String,
}

impl GapsView {
    /// The view of gaps that come in order of harm. `surveys` is how many were asked.
    #[must_use]
    pub fn new(found: &[Gap], surveys: usize, date: Option<Date>) -> Self {
        let kinds = Kind::ALL.into_iter().map(|kind| GapsOfKind {
            word: kind.word(),
            heading: kind.heading(),
            settles: kind.settles(),
            rows: found.iter().filter(|gap| gap.kind == kind).map(row).collect(),
        });
        Self {
            count: found.len(),
            surveys,
            date: date.map(|date| date.to_string()),
            kinds: kinds.filter(|kind| !kind.rows.is_empty()).collect(),
        }
    }
}

fn row(gap: &Gap) -> GapRow {
    GapRow {
        card: gap.card.clone(),
        about: gap.about.clone().unwrap_or_default(),
        packs: gap.packs,
        says: gap.says.clone(),
    }
}
