//! Words of a ring that are more than one: each is indexed as a word of its own, so that nobody has to look at every
//! place of `bell` and of `box` to find the bell boxes.

use super::text::{Piece, pieces};
use std::collections::BTreeMap;

/// What stands between the words of a phrase: no text has it.
const BETWEEN: &str = "\u{1}";

/// The phrases of all rings.
#[derive(Debug, Default)]
pub(super) struct Phrases {
    /// By the first word: what follows, and the phrase as it is indexed.
    by_first: BTreeMap<String, Vec<(Vec<String>, String)>>,
}

impl Phrases {
    /// Those of these rings.
    pub(super) fn of(rings: &[Vec<String>]) -> Self {
        let mut phrases = Self::default();
        for words in rings.iter().flatten().map(|text| words(text)) {
            if let [first, rest @ ..] = words.as_slice()
                && !rest.is_empty()
            {
                let known = phrases.by_first.entry(first.clone()).or_default();
                let phrase = (rest.to_vec(), joined(&words));
                if !known.contains(&phrase) {
                    known.push(phrase);
                }
            }
        }
        phrases
    }

    /// Whether any begins with a piece.
    pub(super) fn may_begin(&self, piece: &Piece) -> bool {
        piece.forms.iter().any(|form| self.by_first.contains_key(form))
    }

    /// Those that begin with the first of some pieces.
    pub(super) fn beginning<'a>(
        &'a self,
        pieces: impl Fn(usize) -> Option<&'a Piece>,
    ) -> impl Iterator<Item = &'a str> {
        let forms = move |at| pieces(at).map(|piece| piece.forms.as_slice()).unwrap_or_default();
        let known = forms(0).iter().filter_map(|form| self.by_first.get(form)).flatten();
        let follow = move |rest: &Vec<String>| rest.iter().zip(1..).all(|(word, at)| forms(at).contains(word));
        known.filter(move |(rest, _)| follow(rest)).map(|(_, phrase)| phrase.as_str())
    }
}

/// The words of a text, each in its commonest form.
pub(super) fn words(text: &str) -> Vec<String> {
    pieces(text).into_iter().filter_map(|piece| piece.forms.into_iter().next()).collect()
}

/// A phrase as it is indexed.
pub(super) fn joined(words: &[String]) -> String {
    words.join(BETWEEN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_phrase_is_found_where_its_words_follow_each_other() {
        let rings = [vec!["bell box".to_string(), "siren".to_string()], vec!["Bell Box".to_string()]];
        let phrases = Phrases::of(&rings);
        let found = |text: &str| {
            let pieces = pieces(text);
            let at = |at| phrases.beginning(|next| pieces.get(at + next)).map(str::to_string).collect::<Vec<_>>();
            (0..pieces.len()).filter(|at| phrases.may_begin(&pieces[*at])).flat_map(at).collect::<Vec<_>>()
        };
        assert_eq!(found("the bell boxes outside"), ["bell\u{1}box"]);
        assert!(found("a bell in a box, a box").is_empty());
        assert!(found("box bell").is_empty());
    }
}
