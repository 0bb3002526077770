//! The cards as the page shows them: a line of JSON for each, which is read only when the card is shown. A card is its
//! facts, in the order in which they are numbered. What is said more than once stands in a list, once.

use crate::search::{Hit, Kind, Sign};
use crate::wording::visible;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The cards, growing fact by fact.
#[derive(Debug, Default)]
pub(super) struct Cards {
    cards: Vec<Card>,
    /// How often each text is said.
    said: BTreeMap<String, usize>,
}

#[derive(Debug)]
struct Card {
    id: String,
    name: String,
    facts: Vec<Fact>,
}

/// Its kind's place in the list of kinds, its texts, its side.
#[derive(Debug)]
struct Fact {
    kind: Option<usize>,
    texts: [Option<String>; 7],
    side: Option<char>,
}

impl Cards {
    /// Takes the next fact.
    pub(super) fn add(&mut self, hit: &Hit) {
        if self.cards.last().is_none_or(|card| card.id != hit.card) {
            self.cards.push(Card { id: hit.card.clone(), name: shown(&hit.card_name), facts: Vec::new() });
        }
        let texts = [
            hit.mark.as_ref(),
            Some(&hit.text),
            hit.danger.as_ref(),
            hit.volts.as_ref(),
            hit.fuse.as_ref(),
            hit.check.as_ref(),
            hit.known.as_ref(),
        ];
        let texts = texts.map(|text| text.map(|text| shown(text)));
        for text in texts.iter().flatten() {
            *self.said.entry(text.clone()).or_default() += 1;
        }
        let kind = Kind::ALL.iter().position(|kind| *kind == hit.kind);
        let fact = Fact { kind, texts, side: hit.side.map(Sign::symbol) };
        if let Some(card) = self.cards.last_mut() {
            card.facts.push(fact);
        }
    }

    /// A line for each card, and a line for each text that is said more than once: those said most often first, for
    /// their numbers are short.
    pub(super) fn lines(self) -> (Vec<String>, Vec<String>) {
        let mut often: Vec<(&String, usize)> =
            self.said.iter().filter(|(_, count)| **count > 1).map(|(text, count)| (text, *count)).collect();
        often.sort_by_key(|(text, count)| (std::cmp::Reverse(*count), *text));
        let places: BTreeMap<&str, usize> = often.iter().zip(1..).map(|((text, _), at)| (text.as_str(), at)).collect();
        let lines = self.cards.iter().map(|card| line(card, &places)).collect();
        (lines, often.iter().map(|(text, _)| json!(text).to_string()).collect())
    }
}

/// Id, name, facts. Of a fact: kind, mark, text, danger, volts, fuse, check, how it is known, side; each text itself,
/// or from 1 its place in the list. What is missing is nought, and left out at the end.
fn line(card: &Card, places: &BTreeMap<&str, usize>) -> String {
    let text = |text: &Option<String>| {
        text.as_ref().map_or(json!(0), |text| places.get(text.as_str()).map_or_else(|| json!(text), |at| json!(at)))
    };
    let fact = |fact: &Fact| {
        let mut parts = vec![json!(fact.kind)];
        parts.extend(fact.texts.iter().map(text));
        parts.push(fact.side.map_or(json!(0), |side| json!(side.to_string())));
        while parts.last() == Some(&json!(0)) {
            parts.pop();
        }
        json!(parts)
    };
    json!([card.id, card.name, card.facts.iter().map(fact).collect::<Vec<Value>>()]).to_string()
}

/// Text without a sign that hides or reorders it; its lines stay.
fn shown(text: &str) -> String {
    text.chars().map(|c| if c == '\n' { c } else { visible(c) }).collect()
}
