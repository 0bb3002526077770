//! Texts of more than one word, as rings have them: each is indexed as a word of its own, so that nobody has to look at
//! every place of `bell` and of `box` to find the bell boxes.

use super::text::pieces;
use std::collections::BTreeMap;

/// What stands between the words of a phrase: no word has it.
const BETWEEN: &str = " ";

/// Phrases that are looked for in running texts.
#[derive(Debug, Default)]
pub struct Phrases {
    /// By the first word: what follows, and the phrase as it is indexed.
    by_first: BTreeMap<String, Vec<(Vec<String>, String)>>,
}

impl Phrases {
    /// Those of these texts that are more than one word.
    pub fn of<'a>(texts: impl IntoIterator<Item = &'a str>) -> Self {
        let mut phrases = Self::default();
        for words in texts.into_iter().map(words) {
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

    /// All of them.
    pub fn all(&self) -> impl Iterator<Item = &str> {
        self.by_first.values().flatten().map(|(_, phrase)| phrase.as_str())
    }

    /// Whether any begins with a word of these forms.
    pub(super) fn may_begin(&self, forms: &[String]) -> bool {
        forms.iter().any(|form| self.by_first.contains_key(form))
    }

    /// Those that begin where a text goes on so: `forms` gives the forms of the first of its words, of the next …; none
    /// behind its end.
    pub fn beginning<'a>(&'a self, forms: impl Fn(usize) -> &'a [String]) -> impl Iterator<Item = &'a str> {
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
        let phrases = Phrases::of(["bell box", "siren", "Bell Box"]);
        let found = |text: &str| {
            let pieces = pieces(text);
            let forms = |at: usize| pieces.get(at).map(|piece| piece.forms.as_slice()).unwrap_or_default();
            let at = |at| phrases.beginning(|next| forms(at + next)).map(str::to_string).collect::<Vec<_>>();
            (0..pieces.len()).filter(|at| phrases.may_begin(forms(*at))).flat_map(at).collect::<Vec<_>>()
        };
        assert_eq!(found("the bell boxes outside"), ["bell box"]);
        assert!(found("a bell in a box, a box").is_empty());
        assert!(found("box bell").is_empty());
    }
}
