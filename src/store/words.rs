//! Texts that much of what is kept has in common, each once: what has one keeps its place.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Texts by their places.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Words {
    list: Vec<String>,
    /// The places by their texts, worked out when one is asked for first.
    #[serde(skip)]
    places: Option<BTreeMap<String, u32>>,
}

impl Words {
    /// The texts at these places.
    pub fn at<'w>(&'w self, places: &'w [u32]) -> impl Iterator<Item = &'w str> {
        places.iter().filter_map(|place| self.list.get(index(*place))).map(String::as_str)
    }

    /// The place of a text, which is added where it is new.
    pub fn place(&mut self, word: &str) -> u32 {
        let list = &mut self.list;
        let places = self.places.get_or_insert_with(|| list.iter().cloned().zip(0..).collect());
        if let Some(place) = places.get(word) {
            return *place;
        }
        let place = number(list.len());
        list.push(word.to_string());
        places.insert(word.to_string(), place);
        place
    }

    /// Forgets the texts that nothing needs; each of `places` becomes the one at which its text stands then.
    pub(super) fn tidy<'p>(&mut self, places: impl Iterator<Item = &'p mut u32>) {
        self.list = needed(std::mem::take(&mut self.list), places);
        self.places = None;
    }
}

/// What of a list is needed, in the order of the places, each of which becomes the one at which it stands then.
pub(super) fn needed<'p, T: Default>(mut list: Vec<T>, places: impl Iterator<Item = &'p mut u32>) -> Vec<T> {
    let mut moved: Vec<Option<u32>> = vec![None; list.len()];
    let mut needed = Vec::new();
    for place in places {
        let at = index(*place);
        let (Some(moved), Some(one)) = (moved.get_mut(at), list.get_mut(at)) else {
            *place = u32::MAX;
            continue;
        };
        *place = *moved.get_or_insert_with(|| {
            needed.push(std::mem::take(one));
            number(needed.len() - 1)
        });
    }
    needed
}

fn index(place: u32) -> usize {
    usize::try_from(place).unwrap_or(usize::MAX)
}

/// A place as it is kept.
pub(super) fn number(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_has_one_place_and_one_that_nothing_needs_is_forgotten() {
        let mut words = Words::default();
        let mut places = ["a", "b", "c", "b"].map(|word| words.place(word));
        assert_eq!(places, [0, 1, 2, 1]);
        words.tidy(places[1..].iter_mut());
        assert_eq!(places[1..], [0, 1, 0]);
        assert_eq!(words.at(&places[1..]).collect::<Vec<_>>(), ["b", "c", "b"]);
        assert_eq!(["c", "a", "b"].map(|word| words.place(word)), [1, 2, 0]);
    }
}
