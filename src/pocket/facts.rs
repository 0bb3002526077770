//! The facts as the page shows them. Many cards say the same: what two facts say alike in every word, and are found by
//! alike, is one *saying*, and a card is the numbers of its sayings in the order of its facts.

use super::postings;
use crate::search::{Hit, Kind, Place, Terms};
use crate::wording::visible;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The facts, growing one by one.
#[derive(Debug, Default)]
pub(super) struct Facts {
    cards: Vec<Card>,
    sayings: Vec<Saying>,
    /// The number of each saying, with the words it is found by.
    numbers: BTreeMap<(Saying, Terms), u32>,
}

#[derive(Debug)]
struct Card {
    id: String,
    name: String,
    sayings: Vec<u32>,
}

/// Its kind's place in the list of kinds, its texts, and from 1 the place of its note in the list of notes.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Saying {
    kind: Option<usize>,
    texts: [Option<String>; 8],
    note: usize,
}

/// Where a fact stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Put {
    /// The number of its card.
    pub(super) card: u32,
    /// The number of what it says.
    pub(super) saying: u32,
    /// Whether nothing said so before.
    pub(super) is_new: bool,
}

/// The facts as lines of JSON.
#[derive(Debug)]
pub(super) struct Lines {
    /// Id, name, and the sayings as text.
    pub(super) cards: Vec<String>,
    /// The number of each card's first fact, and how many facts there are.
    pub(super) starts: Vec<usize>,
    /// For each saying the facts that say it, as text.
    pub(super) places: Vec<String>,
    /// Kind, mark, text, danger, volts, fuse, check, how it is known, side, note; each text itself, or from 1 its place
    /// among the texts, or a list of such parts. What is missing is nought, and left out at the end.
    pub(super) sayings: Vec<String>,
    /// The texts and clauses that stand several times, those of most first, for their numbers are short.
    pub(super) texts: Vec<String>,
}

impl Facts {
    /// Takes the next fact. `note` is the place of its note among the notes, from 1.
    pub(super) fn add(&mut self, hit: &Hit, terms: &Terms, note: usize) -> Put {
        if self.cards.last().is_none_or(|card| card.id != hit.card) {
            self.cards.push(Card { id: hit.card.clone(), name: shown(&hit.card_name), sayings: Vec::new() });
        }
        let saying = saying(hit, note);
        let next = number(self.sayings.len());
        let saying_number = *self.numbers.entry((saying.clone(), own(terms))).or_insert(next);
        let is_new = saying_number == next;
        if is_new {
            self.sayings.push(saying);
        }
        if let Some(card) = self.cards.last_mut() {
            card.sayings.push(saying_number);
        }
        Put { card: number(self.cards.len()).saturating_sub(1), saying: saying_number, is_new }
    }

    /// All of them.
    pub(super) fn lines(self) -> Lines {
        let often = often(self.sayings.iter().flat_map(|saying| saying.texts.iter().flatten()));
        let places: BTreeMap<&str, usize> = often.iter().copied().zip(1..).collect();
        let mut facts: Vec<Vec<u32>> = vec![Vec::new(); self.sayings.len()];
        for (saying, at) in self.cards.iter().flat_map(|card| &card.sayings).zip(0..) {
            facts.get_mut(*saying as usize).into_iter().for_each(|list| list.push(at));
        }
        let card = |card: &Card| json!([card.id, card.name, postings::numbers(&card.sayings)]).to_string();
        Lines {
            cards: self.cards.iter().map(card).collect(),
            starts: starts(&self.cards),
            places: facts.iter().map(|list| postings::text(list)).collect(),
            sayings: self.sayings.iter().map(|saying| line(saying, &places)).collect(),
            texts: often.iter().map(|text| json!(text).to_string()).collect(),
        }
    }
}

fn starts(cards: &[Card]) -> Vec<usize> {
    let mut starts = vec![0];
    for card in cards {
        starts.push(starts.last().copied().unwrap_or(0) + card.sayings.len());
    }
    starts
}

fn saying(hit: &Hit, note: usize) -> Saying {
    let side = hit.side.map(|side| side.told().to_string());
    let texts = [
        hit.mark.as_ref(),
        Some(&hit.text),
        hit.danger.as_ref(),
        hit.volts.as_ref(),
        hit.fuse.as_ref(),
        hit.check.as_ref(),
        hit.known.as_ref(),
        side.as_ref(),
    ];
    Saying {
        kind: Kind::ALL.iter().position(|kind| *kind == hit.kind),
        texts: texts.map(|text| text.map(|text| shown(text))),
        note,
    }
}

/// The words of a fact but for those that it has from its card.
fn own(terms: &Terms) -> Terms {
    let single = terms.single.iter().filter(|(place, _)| *place != Place::Of).cloned().collect();
    Terms { single, running: terms.running.iter().filter(|(place, _)| *place != Place::Context).cloned().collect() }
}

/// The texts that several sayings have, and the clauses that several of the other texts have, those of most first.
fn often<'a>(texts: impl Iterator<Item = &'a String>) -> Vec<&'a str> {
    let whole = counted(texts.map(String::as_str));
    let (shared, single): (Vec<_>, Vec<_>) = whole.into_iter().partition(|(_, count)| *count > 1);
    let clauses = counted(single.iter().flat_map(|(text, _)| clauses(text)));
    let mut often: BTreeMap<&str, usize> =
        clauses.into_iter().filter(|(text, count)| *count > 1 && text.len() >= SHORT).collect();
    for (text, count) in shared {
        *often.entry(text).or_default() += count;
    }
    let mut often: Vec<(&str, usize)> = often.into_iter().collect();
    often.sort_by_key(|(text, count)| (std::cmp::Reverse(*count), *text));
    often.into_iter().map(|(text, _)| text).collect()
}

fn counted<'a>(texts: impl Iterator<Item = &'a str>) -> BTreeMap<&'a str, usize> {
    let mut counts = BTreeMap::new();
    for text in texts {
        *counts.entry(text).or_default() += 1;
    }
    counts
}

/// From this length on a clause is worth a place of its own.
const SHORT: usize = 5;

/// A text cut behind each of its commas, points, colons and semicolons.
fn clauses(text: &str) -> impl Iterator<Item = &str> {
    let mut last = ' ';
    text.split_inclusive(move |letter| {
        let ends = letter == ' ' && matches!(last, ',' | '.' | ':' | ';');
        last = letter;
        ends
    })
}

/// A text as its place, or as its clauses, each as it stands or as its place.
fn part(text: &str, places: &BTreeMap<&str, usize>) -> Value {
    if let Some(at) = places.get(text) {
        return json!(at);
    }
    let mut parts: Vec<Value> = Vec::new();
    for clause in clauses(text) {
        match (places.get(clause), parts.last_mut()) {
            (Some(at), _) => parts.push(json!(at)),
            (None, Some(Value::String(before))) => before.push_str(clause),
            (None, _) => parts.push(json!(clause)),
        }
    }
    if parts.iter().any(Value::is_number) { Value::Array(parts) } else { json!(text) }
}

fn line(saying: &Saying, places: &BTreeMap<&str, usize>) -> String {
    let text = |text: &Option<String>| text.as_ref().map_or(json!(0), |text| part(text, places));
    let mut parts = vec![json!(saying.kind)];
    parts.extend(saying.texts.iter().map(text));
    parts.push(json!(saying.note));
    while parts.last() == Some(&json!(0)) {
        parts.pop();
    }
    Value::Array(parts).to_string()
}

fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// Text without a sign that hides or reorders it; its lines stay.
fn shown(text: &str) -> String {
    text.chars().map(|c| if c == '\n' { c } else { visible(c) }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the page makes of a part.
    fn read(part: &Value, often: &[&str]) -> String {
        match part {
            Value::Array(parts) => parts.iter().map(|part| read(part, often)).collect(),
            Value::Number(at) => often[usize::try_from(at.as_u64().unwrap()).unwrap() - 1].to_string(),
            part => part.as_str().unwrap().to_string(),
        }
    }

    #[test]
    fn texts_come_back_from_their_clauses() {
        let texts = [
            "Old panel. Feeds at A+ and A-, 13.8 V; drain 70 mA.",
            "Old panel. Feeds at 12V and 0V, 13.8 V; drain 70 mA.",
            "Old panel. Feeds at 12V and 0V, 13.8 V; drain 70 mA.",
            "13.8 V; ",
            "e. g. so",
            "e. h. so",
            "",
        ]
        .map(String::from);
        let often = often(texts.iter());
        assert_eq!(often, ["13.8 V; ", "Old panel. Feeds at 12V and 0V, 13.8 V; drain 70 mA."]);
        let places: BTreeMap<&str, usize> = often.iter().copied().zip(1..).collect();
        for text in &texts {
            assert_eq!(read(&part(text, &places), &often), *text);
        }
        assert_eq!(part(&texts[0], &places), json!(["Old panel. Feeds at A+ and A-, ", 1, "drain 70 mA."]));
    }
}
