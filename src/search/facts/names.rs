//! What a card is called: the names that lead to it, and those that keep an answer to it.

use super::card;
use crate::model::{Card, Device, Unit};
use crate::search::text::{name_key, pieces};
use std::collections::BTreeSet;

/// The fewest letters of a word that stands for a whole name (`Seafarer` for `Q8 Seafarer`), and the fewest signs of a
/// part of a marking (`4410` of `4410-B ISS 3`).
const LEAST: usize = 4;

/// The names a maker gave it: maker, model, both, what else it goes by. A generic device has none.
fn given(card: Card<'_>) -> Vec<String> {
    let (maker, model, also) = match card {
        Card::Device(Device { maker, model, also, .. }) => (maker, model, also),
        _ => match card.unit() {
            Some(Unit { maker, model, also, .. }) => (maker, model, also),
            None => return Vec::new(),
        },
    };
    let mut names: Vec<String> = maker.iter().chain(model).chain(also).cloned().collect();
    if maker.is_some() && model.is_some() {
        names.push(card::name(card));
    }
    names
}

/// Every name that leads to the card itself.
pub(super) fn all(card: Card<'_>) -> Vec<String> {
    let mut names = vec![card::id(card).clone(), card::name(card)];
    names.extend(given(card));
    names.extend(of(card));
    names
}

/// The words of its names, for every fact of it.
pub(super) fn context(card: Card<'_>) -> String {
    let mut names = vec![card::id(card).clone(), card::name(card)];
    names.extend(given(card));
    names.join(" ")
}

/// The names that keep an answer to this card when they are said beside a mark or a word, as they are compared:
/// given names, their long words, and its markings and parts of them.
pub(super) fn of(card: Card<'_>) -> Vec<String> {
    let given = given(card);
    let mut keys: BTreeSet<String> = given.iter().map(|name| name_key(name)).collect();
    let words = given.iter().flat_map(|name| pieces(name)).map(|piece| piece.word);
    keys.extend(words.filter(|word| word.chars().count() >= LEAST));
    if !given.is_empty() {
        keys.insert(name_key(card::id(card)));
    }
    let markings = card.unit().map(|unit| unit.markings.as_slice()).unwrap_or_default();
    keys.extend(markings.iter().flat_map(|marking| parts(marking)));
    keys.retain(|key| !key.is_empty());
    keys.into_iter().collect()
}

/// A marking and each run of its parts that says a number: of `TH 0512 REV C` also `0512`, `th0512`, `0512rev` ….
pub(super) fn parts(marking: &str) -> Vec<String> {
    let pieces: Vec<String> = marking.split(|c: char| !c.is_alphanumeric()).map(name_key).collect();
    let pieces: Vec<&str> = pieces.iter().map(String::as_str).filter(|piece| !piece.is_empty()).collect();
    let mut parts = vec![name_key(marking)];
    for from in 0..pieces.len() {
        for to in from..pieces.len() {
            let run = pieces.get(from..=to).unwrap_or_default().concat();
            if run.chars().count() >= LEAST && run.chars().any(|c| c.is_ascii_digit()) {
                parts.push(run);
            }
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::parts;

    #[test]
    fn a_marking_is_known_by_its_parts() {
        let parts = parts("TH 0512 REV C");
        for part in ["th0512revc", "th0512", "0512", "0512revc"] {
            assert!(parts.iter().any(|p| p == part), "{part}: {parts:?}");
        }
        assert!(!parts.iter().any(|p| p == "rev" || p == "th"), "{parts:?}");
    }
}
