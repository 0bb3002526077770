//! How a fact is known, in words.

use crate::model::{Cite, Evidence, Standing, Terminal, Unit};
use crate::wording::at_sites;
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
    known_at(cites, Evidence::default())
}

/// How a fact with these cites is known, with what sites measured of it.
#[must_use]
pub fn known_at(cites: &[Cite], evidence: Evidence) -> Known {
    let standing = Standing::at_sites(cites, evidence);
    let is_disputed = evidence.disagree > 0;
    let words = if is_disputed { "confirm on site" } else { words(standing) };
    let sites = at_sites(evidence.agree, evidence.disagree);
    let list: Vec<String> = cites.iter().map(one).chain(Some(sites).filter(|sites| !sites.is_empty())).collect();
    let list = list.join(", ");
    let said = cites.iter().any(|c| c.source == words) || (evidence.agree > 0 && words == "measured");
    let text = match (list.is_empty(), said) {
        (true, _) => words.to_string(),
        (false, true) => list.clone(),
        (false, false) => format!("{list}: {words}"),
    };
    Known { cites: list, standing: words, text, confirm: is_disputed || standing.needs_confirming() }
}

/// How a terminal is known.
#[must_use]
pub fn known_terminal(terminal: &Terminal) -> Known {
    known_at(&terminal.cite, terminal.evidence)
}

/// How a block is known: by its own cites, else no better than the weakest of its terminals. A site that disagrees
/// about one of its terminals disagrees about the block.
#[must_use]
pub fn known_block<'a>(unit: &Unit, own: &[Cite], marks: impl IntoIterator<Item = &'a String>) -> Known {
    let terminals: Vec<&Terminal> = marks.into_iter().filter_map(|m| unit.terminal(m)).collect();
    if !own.is_empty() {
        let disagree = terminals.iter().map(|t| t.evidence.disagree).max().unwrap_or(0);
        return known_at(own, Evidence { agree: 0, disagree });
    }
    let doubt = |t: &&Terminal| (t.evidence.disagree, Standing::at_sites(&t.cite, t.evidence));
    terminals.into_iter().max_by_key(doubt).map_or_else(|| known(&[]), known_terminal)
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
