//! The forms in which words are compared, as a table: the words of the library, and each as a person may bend it. The
//! page looks words up; only Rust makes the forms.

use crate::search::form;
use std::collections::{BTreeMap, BTreeSet};

/// The endings that a person puts to a word (English grammar; one that makes no such form of the word falls out).
const ENDINGS: [&str; 13] = ["", "s", "es", "ed", "d", "ing", "er", "ers", "ly", "al", "ion", "ions", "y"];
/// What an ending takes away first, and puts in its place.
const TURNS: [(&str, &str); 4] = [("", ""), ("e", ""), ("y", "i"), ("ing", "")];

/// For each beginning of a word: the ends with which it is bent and is the form, as `ies=i` under `batter`. `known` are
/// the words of the library.
pub(super) fn of(known: &BTreeSet<String>) -> BTreeMap<String, Vec<String>> {
    let forms: BTreeSet<String> = known.iter().map(|word| form(word)).collect();
    let mut words: BTreeSet<String> = BTreeSet::new();
    for word in known.iter().chain(&forms).filter(|word| word.len() > 2) {
        for turned in TURNS.iter().filter_map(|(end, other)| Some(format!("{}{other}", word.strip_suffix(end)?))) {
            let last = turned.chars().last().map(String::from).unwrap_or_default();
            for ending in ENDINGS {
                words.insert(format!("{turned}{ending}"));
                if ending.starts_with(['e', 'i']) {
                    words.insert(format!("{turned}{last}{ending}"));
                }
            }
        }
    }
    let mut out: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for word in words {
        let form = form(&word);
        if form != word && forms.contains(&form) {
            let same = form.chars().zip(word.chars()).take_while(|(a, b)| a == b).count();
            let start: String = word.chars().take(same).collect();
            let end = |word: &str| word.chars().skip(same).collect::<String>();
            out.entry(start).or_default().push(format!("{}={}", end(&word), end(&form)));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_as_it_is_bent() {
        let table = of(&["chirped", "battery", "idles"].map(String::from).into());
        let has = |start: &str, end: &str| table.get(start).is_some_and(|ends| ends.iter().any(|e| e == end));
        assert!(has("chirp", "ing=") && has("chirp", "s="), "{table:?}");
        assert!(has("batter", "y=i") && has("batteri", "es="), "{table:?}");
        assert!(has("idl", "ing="), "{table:?}");
    }
}
