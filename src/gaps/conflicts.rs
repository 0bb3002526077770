//! Notes whose measurements disagree with the card, or with each other.

use super::{Gap, Kind, View};
use crate::model::{Card, Evidence};
use crate::wording::at_sites;

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    let mut gaps = Vec::new();
    for (card, notes) in &view.library.notes {
        for mark in view.library.card(card).map(Card::marks).unwrap_or_default() {
            let evidence = Evidence::of(notes, mark);
            if evidence.disagree > 0 {
                let says = format!("Which is right of {mark}: {}", at_sites(evidence.agree, evidence.disagree));
                gaps.push(Gap { packs: view.relied.mark(card, mark), ..view.about(Kind::Conflict, card, mark, says) });
            }
        }
    }
    gaps
}
