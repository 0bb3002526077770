//! The forms in which words are compared, as a table: the words of the library, and each as a person may bend it. The
//! page looks words up; only Rust makes the forms.

use crate::search::form;
use std::collections::{BTreeMap, BTreeSet};

/// The endings that a person puts to a word (English grammar; one that makes no such form of the word falls out).
const ENDINGS: [&str; 13] = ["", "s", "es", "ed", "d", "ing", "er", "ers", "ly", "al", "ion", "ions", "y"];
/// What an ending takes away first, and puts in its place.
const TURNS: [(&str, &str); 4] = [("", ""), ("e", ""), ("y", "i"), ("ing", "")];

/// For each form other than the word itself: the words that have it. `known` are the words of the library.
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
            out.entry(form).or_default().push(word);
        }
    }
    out
}

/// The table as text, one form a line: the form, and of each of its words how many letters of the form it begins with
/// and how it goes on.
pub(super) fn text(table: &BTreeMap<String, Vec<String>>) -> String {
    let mut lines = Vec::with_capacity(table.len());
    for (form, words) in table {
        let ends = words.iter().map(|word| {
            let same = form.chars().zip(word.chars()).take_while(|(a, b)| a == b).count();
            let rest: String = word.chars().skip(same).collect();
            format!("{}{rest}", form.chars().count().saturating_sub(same))
        });
        lines.push(std::iter::once(form.clone()).chain(ends).collect::<Vec<_>>().join(" "));
    }
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_as_it_is_bent() {
        let table = of(&["chirped", "battery", "idles"].map(String::from).into());
        let has = |form: &str, word: &str| table.get(form).is_some_and(|words| words.iter().any(|w| w == word));
        assert!(has("chirp", "chirping") && has("chirp", "chirps"), "{table:?}");
        assert!(has("batteri", "battery") && has("batteri", "batteries"), "{table:?}");
        assert!(has("idl", "idling"), "{table:?}");
        let lines = text(&BTreeMap::from([("batteri".into(), vec!["batteries".into(), "battery".into()])]));
        assert_eq!(lines, "batteri 0es 1y");
    }
}
