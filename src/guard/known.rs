//! Names and addresses of sites that surveys know, however they are spaced and capitalised.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// A site as its survey names it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Site {
    /// The survey's id.
    pub survey: String,
    /// What the site is called.
    pub name: Option<String>,
    /// Where it is, its parts with commas between.
    pub address: Option<String>,
}

/// Single words that name a kind of place, or a thing of the trade, rather than one site.
const COMMON: [&str; 40] = [
    "alarm",
    "annexe",
    "bakery",
    "bank",
    "barn",
    "battery",
    "board",
    "bungalow",
    "church",
    "club",
    "cottage",
    "demo",
    "example",
    "factory",
    "farm",
    "flat",
    "garage",
    "hall",
    "home",
    "hotel",
    "house",
    "kiosk",
    "library",
    "loft",
    "office",
    "panel",
    "sample",
    "school",
    "shed",
    "shop",
    "site",
    "slipway",
    "store",
    "surgery",
    "survey",
    "test",
    "unit",
    "warehouse",
    "workshop",
    "yard",
];

/// Street words that are written short, with the long one.
const SHORT: [(&str, &str); 9] = [
    ("st", "street"),
    ("str", "street"),
    ("rd", "road"),
    ("ln", "lane"),
    ("ave", "avenue"),
    ("cres", "crescent"),
    ("sq", "square"),
    ("gdns", "gardens"),
    ("dr", "drive"),
];

/// The shortest name of one word, and the shortest id, that is looked for.
const SHORTEST: usize = 4;
const SHORTEST_ID: usize = 8;

/// The sites, as rows of words to look for. A firm may know twenty thousand, so none is looked for by itself.
#[derive(Debug, Clone, Default)]
pub(super) struct Sites {
    /// Names and streets by their first words, each as its words.
    phrases: BTreeMap<String, BTreeSet<Vec<String>>>,
    /// Ids of surveys by their first words, each as it is written, with where that word begins in it.
    ids: BTreeMap<String, BTreeSet<(usize, String)>>,
}

impl Sites {
    /// What to look for, of all sites.
    pub(super) fn new(sites: &[Site]) -> Self {
        let mut phrases: BTreeMap<String, BTreeSet<Vec<String>>> = BTreeMap::new();
        for site in sites {
            let names = site.name.as_deref().map(names).unwrap_or_default();
            let streets = site.address.as_deref().map(streets).unwrap_or_default();
            for phrase in names.into_iter().chain(streets) {
                let first = phrase.first().cloned().unwrap_or_default();
                phrases.entry(first).or_default().insert(phrase);
            }
        }
        let mut ids: BTreeMap<String, BTreeSet<(usize, String)>> = BTreeMap::new();
        let is_telling = |id: &&String| id.len() >= SHORTEST_ID && id.contains('-');
        for id in sites.iter().map(|site| &site.survey).filter(is_telling) {
            if let Some(first) = words(id).into_iter().next() {
                ids.entry(first.folded).or_default().insert((first.place.start, id.clone()));
            }
        }
        Self { phrases, ids }
    }

    /// Their places in a text.
    pub(super) fn found(&self, text: &str) -> Vec<Range<usize>> {
        let words = words(text);
        let mut found = Vec::new();
        for (at, first) in words.iter().enumerate() {
            let ahead = words.get(at..).unwrap_or_default();
            let phrases = self.phrases.get(&first.folded).into_iter().flatten();
            let longest = phrases.filter(|phrase| begins(ahead, phrase)).map(Vec::len).max();
            if let Some(last) = longest.and_then(|long| ahead.get(long.saturating_sub(1))) {
                found.push(first.place.start..last.place.end);
            }
            let ids = self.ids.get(&first.folded).into_iter().flatten();
            found.extend(ids.filter_map(|(lead, id)| whole(text, first.place.start.checked_sub(*lead)?, id)));
        }
        found
    }
}

/// A word of a text, folded, with its place.
struct Word {
    folded: String,
    place: Range<usize>,
}

/// The words of a text: letters and digits, lower case, street words in full, a possessive `s` left out.
fn words(text: &str) -> Vec<Word> {
    let mut out: Vec<Word> = Vec::new();
    let mut start = None;
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        match (start, c.is_alphanumeric()) {
            (None, true) => start = Some(at),
            (Some(from), false) => {
                out.push(word(text, from..at));
                start = None;
            }
            _ => {}
        }
    }
    out.retain(|word| word.folded != "s");
    out
}

fn word(text: &str, place: Range<usize>) -> Word {
    let lower = text.get(place.clone()).unwrap_or_default().to_lowercase();
    let long = SHORT.iter().find(|(short, _)| *short == lower).map(|(_, long)| (*long).to_owned());
    Word { folded: long.unwrap_or(lower), place }
}

fn begins(words: &[Word], phrase: &[String]) -> bool {
    words.len() >= phrase.len() && phrase.iter().zip(words).all(|(wanted, word)| *wanted == word.folded)
}

fn folded(text: &str) -> Vec<String> {
    words(text).into_iter().map(|word| word.folded).collect()
}

/// A site's name, and without the article or the `old` that people leave out.
fn names(name: &str) -> Vec<Vec<String>> {
    let whole = folded(name);
    let bare: Vec<String> = whole.iter().skip_while(|word| is_filler(word)).cloned().collect();
    [whole, bare].into_iter().filter(|phrase| is_a_name(phrase)).collect()
}

/// The parts of an address but the town: the street with its number, and the street alone.
fn streets(address: &str) -> Vec<Vec<String>> {
    let parts: Vec<&str> = address.split([',', '\n']).map(str::trim).filter(|part| !part.is_empty()).collect();
    let town = usize::from(parts.len() > 1);
    let mut out = Vec::new();
    for part in parts.iter().take(parts.len() - town.min(parts.len())) {
        let whole = folded(part);
        let street: Vec<String> = whole.iter().skip_while(|w| is_number(w)).cloned().collect();
        out.extend([whole, street].into_iter().filter(|phrase| phrase.len() > 1 && is_a_name(phrase)));
    }
    out
}

fn is_number(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit())
}

/// Several words, or one that is not too short and names no kind of place; an article counts as no word.
fn is_a_name(phrase: &[String]) -> bool {
    match phrase {
        [] => false,
        [filler, rest @ ..] if is_filler(filler) => is_a_name(rest),
        [one] => one.chars().count() >= SHORTEST && !COMMON.contains(&one.as_str()) && !is_number(one),
        _ => true,
    }
}

fn is_filler(word: &str) -> bool {
    matches!(word, "the" | "old" | "new")
}

/// The place of an id that begins here and is not part of a longer one.
fn whole(text: &str, start: usize, id: &str) -> Option<Range<usize>> {
    let place = start..start + id.len();
    let is_part = |c: char| c.is_alphanumeric() || c == '-';
    let is_it = text.get(place.clone())?.eq_ignore_ascii_case(id);
    let is_alone = !text.get(..start)?.ends_with(is_part) && !text.get(place.end..)?.starts_with(is_part);
    (is_it && is_alone).then_some(place)
}
