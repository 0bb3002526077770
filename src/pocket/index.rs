//! The index: under which words each fact is found, for the page's script to look up. Facts are numbered in the order
//! in which equal hits are listed.

use super::{postings, stems};
use crate::search::{HABITS, Hit, Place, RingWord, Sign, Terms, words};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

type Lists = BTreeMap<String, Vec<u32>>;

/// An index that grows fact by fact.
#[derive(Debug, Default)]
pub(super) struct Index {
    /// How many facts each card has.
    cards: Vec<u32>,
    card: String,
    facts: u32,
    /// By field and word: the facts; the cards, where the whole card is found by it.
    fields: BTreeMap<&'static str, Lists>,
    spelled: BTreeSet<String>,
    /// Every running word.
    known: BTreeSet<String>,
    /// By field and words that stand for each other: the facts that say them one behind the other.
    phrases: BTreeMap<&'static str, Lists>,
    wanted: BTreeSet<Vec<String>>,
}

impl Index {
    /// An index that will find these words one behind the other: the ring words and kinds that are more than one.
    pub(super) fn new(rings: &[Vec<RingWord>]) -> Self {
        let ring_words = rings.iter().flatten().map(|word| word.word.as_str());
        let all: Vec<Vec<(String, String)>> =
            ring_words.chain(HABITS.kinds.iter().map(|(word, _)| *word)).map(words).collect();
        let known = all.iter().flatten().map(|(word, _)| word.clone()).collect();
        let firsts = all.into_iter().map(|words| words.into_iter().map(|(_, form)| form).collect::<Vec<_>>());
        Self { known, wanted: firsts.filter(|words| words.len() > 1).collect(), ..Self::default() }
    }

    /// Takes the next fact.
    pub(super) fn add(&mut self, hit: &Hit, terms: Terms) {
        if self.card != hit.card || self.cards.is_empty() {
            self.card.clone_from(&hit.card);
            self.cards.push(0);
        }
        if let Some(count) = self.cards.last_mut() {
            *count += 1;
        }
        self.put("kind", hit.kind.word().to_string());
        if let Some(side) = hit.side {
            self.put("side", Sign::symbol(side).to_string());
        }
        for (place, word) in terms.single {
            match place {
                Place::Spelled => drop(self.spelled.insert(word)),
                _ => self.put(name(place), word),
            }
        }
        for (place, forms) in terms.running {
            self.phrases(name(place), &forms);
            for form in forms.into_iter().flatten() {
                self.put(name(place), form);
            }
        }
        for text in [Some(hit.text.as_str()), hit.mark.as_deref()].into_iter().flatten() {
            self.known.extend(words(text).into_iter().map(|(word, _)| word));
        }
        self.facts += 1;
    }

    fn put(&mut self, field: &'static str, word: String) {
        let at =
            if is_of_card(field) { u32::try_from(self.cards.len()).unwrap_or(0).saturating_sub(1) } else { self.facts };
        push(self.fields.entry(field).or_default().entry(word).or_default(), at);
    }

    /// The words wanted one behind the other that a text has.
    fn phrases(&mut self, field: &'static str, forms: &[Vec<String>]) {
        if is_of_card(field) {
            return;
        }
        for phrase in &self.wanted {
            let is_here = |window: &[Vec<String>]| window.iter().zip(phrase).all(|(forms, word)| forms.contains(word));
            if forms.windows(phrase.len()).any(is_here) {
                push(self.phrases.entry(field).or_default().entry(phrase.join(" ")).or_default(), self.facts);
            }
        }
    }

    /// All of it.
    pub(super) fn json(self, rings: &[Vec<RingWord>]) -> Value {
        let mut pool = Pool::default();
        let fields: BTreeMap<&str, BTreeMap<String, usize>> =
            self.fields.into_iter().map(|(field, lists)| (field, pool.lists(lists))).collect();
        let phrases: BTreeMap<&str, BTreeMap<String, usize>> =
            self.phrases.into_iter().map(|(field, lists)| (field, pool.lists(lists))).collect();
        let known: BTreeSet<String> = self.known.into_iter().chain(self.spelled.iter().cloned()).collect();
        let rings: Vec<Vec<[&str; 2]>> =
            rings.iter().map(|ring| ring.iter().map(|w| [w.word.as_str(), w.compact.as_str()]).collect()).collect();
        let kinds: BTreeMap<&str, &str> = HABITS.kinds.iter().map(|(word, kind)| (*word, kind.word())).collect();
        let weights: BTreeMap<&str, f32> = HABITS.weights.iter().copied().collect();
        json!({
            "cards": self.cards,
            "fields": fields,
            "phrases": phrases,
            "wanted": self.wanted.iter().map(|words| words.join(" ")).collect::<Vec<_>>(),
            "pool": pool.texts,
            "spelled": self.spelled.into_iter().collect::<Vec<_>>().join(" "),
            "stems": stems::text(&stems::of(&known)),
            "rings": rings,
            "fillers": HABITS.fillers,
            "weak": HABITS.weak,
            "kinds": kinds,
            "units": HABITS.units,
            "weights": weights,
        })
    }
}

/// Whether all facts of a card have the words of a field, so that cards are listed and not facts.
fn is_of_card(field: &str) -> bool {
    matches!(field, "of" | "context")
}

fn push(list: &mut Vec<u32>, at: u32) {
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

/// Every list once: a mark's three ways to be written mostly have the same facts.
#[derive(Debug, Default)]
struct Pool {
    at: BTreeMap<String, usize>,
    texts: Vec<String>,
}

impl Pool {
    fn lists(&mut self, lists: Lists) -> BTreeMap<String, usize> {
        lists.into_iter().map(|(word, list)| (word, self.place(postings::text(&list)))).collect()
    }

    fn place(&mut self, text: String) -> usize {
        *self.at.entry(text).or_insert_with_key(|text| {
            self.texts.push(text.clone());
            self.texts.len() - 1
        })
    }
}
