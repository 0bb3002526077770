//! The index while it grows: by field and word, what is found there. Most words belong to what a fact says, so sayings
//! are listed; the words that all facts of a card have list cards.

use super::facts::Put;
use crate::search::{HABITS, Hit, Phrases, Place, RingWord, Terms, words};
use std::collections::{BTreeMap, BTreeSet};

/// The sayings or cards under each word.
pub(super) type Lists = BTreeMap<String, Vec<u32>>;

/// An index that grows fact by fact.
#[derive(Debug, Default)]
pub(super) struct Index {
    /// By field and word.
    pub(super) fields: BTreeMap<&'static str, Lists>,
    /// Every word as it is spelled, for slips of the finger.
    pub(super) spelled: BTreeSet<String>,
    /// Every running word.
    pub(super) known: BTreeSet<String>,
    /// By field and words that stand for each other: the sayings that have them one behind the other.
    pub(super) phrases: BTreeMap<&'static str, Lists>,
    /// The words that are looked for one behind the other.
    pub(super) wanted: Phrases,
}

impl Index {
    /// An index that will find the ring words and kinds that are more than one word.
    pub(super) fn new(rings: &[Vec<RingWord>]) -> Self {
        let ring_words = rings.iter().flatten().map(|word| word.word.as_str());
        let all: Vec<&str> = ring_words.chain(HABITS.kinds.iter().map(|(word, _)| *word)).collect();
        let known = all.iter().flat_map(|text| words(text)).map(|(word, _)| word).collect();
        Self { known, wanted: Phrases::of(all), ..Self::default() }
    }

    /// Takes the next fact.
    pub(super) fn add(&mut self, hit: &Hit, terms: Terms, put: Put) {
        let single = terms.single.into_iter().map(|(place, word)| (place, vec![vec![word]]));
        for (place, words) in single.chain(terms.running) {
            let at = match place {
                Place::Of | Place::Context => put.card,
                _ if put.is_new => put.saying,
                _ => continue,
            };
            if place == Place::Spelled {
                self.spelled.extend(words.into_iter().flatten());
                continue;
            }
            let field = name(place);
            if place != Place::Context {
                self.put_phrases(field, &words, at);
            }
            words.into_iter().flatten().for_each(|word| push(self.fields.entry(field).or_default(), word, at));
        }
        if put.is_new {
            push(self.fields.entry("kind").or_default(), hit.kind.word().to_string(), put.saying);
            if let Some(side) = hit.side {
                let itself = side.itself().map(|sign| ("itself", sign));
                for (field, sign) in itself.into_iter().chain([("side", side.sign())]) {
                    push(self.fields.entry(field).or_default(), sign.symbol().to_string(), put.saying);
                }
            }
            for text in [Some(hit.text.as_str()), hit.mark.as_deref()].into_iter().flatten() {
                self.known.extend(words(text).into_iter().map(|(word, _)| word));
            }
        }
    }

    /// The words wanted one behind the other that a text has.
    fn put_phrases(&mut self, field: &'static str, forms: &[Vec<String>], saying: u32) {
        for at in 0..forms.len() {
            let following = |next: usize| forms.get(at + next).map(Vec::as_slice).unwrap_or_default();
            for phrase in self.wanted.beginning(following) {
                push(self.phrases.entry(field).or_default(), phrase.to_string(), saying);
            }
        }
    }
}

fn push(lists: &mut Lists, word: String, at: u32) {
    let list = lists.entry(word).or_default();
    if list.last() != Some(&at) {
        list.push(at);
    }
}

fn name(place: Place) -> &'static str {
    match place {
        Place::Printed => "printed",
        Place::Mark => "mark",
        Place::Base => "base",
        Place::Related => "related",
        Place::Name => "name",
        Place::Of => "of",
        Place::Head => "head",
        Place::Does => "does",
        Place::Told => "told",
        Place::Extra => "extra",
        Place::Context => "context",
        Place::Spelled => "spelled",
    }
}
