//! A library for a page that has nothing but itself: its facts with the words they are found under, its cards, and the
//! numbers of its calculators. [`pocket`] makes them; the page's script only looks up, merges and weighs.

mod cards;
mod figures;
mod index;
mod pack;
mod postings;
mod stems;

use crate::model::Library;
use crate::search;
pub use pack::Pack;

/// What the page holds, as JSON.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pocket {
    /// The words, and the facts under each.
    pub index: String,
    /// A line for each card, in the order of their ids.
    pub cards: Vec<String>,
    /// A line for each text that the cards say more than once.
    pub texts: Vec<String>,
    /// The numbers of the calculators.
    pub figures: String,
}

/// A library for the pocket.
#[must_use]
pub fn pocket(library: &Library) -> Pocket {
    let rings = search::rings(library);
    let mut index = index::Index::new(&rings);
    let mut cards = cards::Cards::default();
    for (hit, terms) in search::indexed(library) {
        cards.add(&hit);
        index.add(&hit, terms);
    }
    let (cards, texts) = cards.lines();
    Pocket { index: index.json(&rings).to_string(), cards, texts, figures: figures::json(library).to_string() }
}
