//! Which words the index knows, and what a word with a slip of the finger may have been meant to be.

use super::alive::holding;
use super::lexicon::Lexicon;
use super::schema::Fields;
use std::collections::BTreeSet;
use tantivy::schema::Field;
use tantivy::{Searcher, TantivyError, Term};

/// In shorter words a slip makes another word.
const LEAST: usize = 4;
/// No longer word is looked up letter by letter.
const LONGEST: usize = 24;

/// The words of an index.
#[derive(Clone, Copy)]
pub(super) struct Vocabulary<'a> {
    pub(super) searcher: &'a Searcher,
    pub(super) fields: &'a Fields,
    pub(super) lexicon: &'a Lexicon,
}

impl Vocabulary<'_> {
    /// Whether any fact has this word in this field.
    pub(super) fn has(&self, field: Field, text: &str) -> Result<bool, TantivyError> {
        Ok(self.count(field, text)? > 0)
    }

    /// How many facts have this word in this field.
    pub(super) fn count(&self, field: Field, text: &str) -> Result<u64, TantivyError> {
        if text.is_empty() || text.len() > 200 {
            return Ok(0);
        }
        holding(self.searcher, &Term::from_field_text(field, text))
    }

    /// The known words that differ from an unknown one by one slip: two letters swapped, one left out, one too many, one
    /// wrong. Never a word of fewer than four letters, nor one with a digit in it.
    pub(super) fn slips(&self, word: &str) -> Result<Vec<String>, TantivyError> {
        let letters: Vec<char> = word.chars().collect();
        if !(LEAST..=LONGEST).contains(&letters.len()) || !letters.iter().all(|c| c.is_alphabetic()) {
            return Ok(Vec::new());
        }
        let known: BTreeSet<&str> = self.lexicon.words().collect();
        let mut meant = Vec::new();
        for near in one_slip_away(&letters) {
            if near.chars().count() >= LEAST
                && (known.contains(near.as_str()) || self.has(self.fields.spelled, &near)?)
            {
                meant.push(near);
            }
        }
        Ok(meant)
    }
}

/// Every word that is one slip away, in alphabetical order.
fn one_slip_away(letters: &[char]) -> BTreeSet<String> {
    let alphabet: BTreeSet<char> = ('a'..='z').chain(letters.iter().copied()).collect();
    let mut near = BTreeSet::new();
    for at in 0..=letters.len() {
        let (head, tail) = letters.split_at(at);
        let rest = tail.get(1..).unwrap_or_default();
        let put = |middle: &[char], tail: &[char]| head.iter().chain(middle).chain(tail).collect::<String>();
        near.insert(put(&[], rest));
        if let [first, second, rest @ ..] = tail {
            near.insert(put(&[*second, *first], rest));
        }
        for letter in &alphabet {
            near.insert(put(&[*letter], tail));
            near.insert(put(&[*letter], rest));
        }
    }
    near.remove(&letters.iter().collect::<String>());
    near
}

#[cfg(test)]
mod tests {
    use super::one_slip_away;

    #[test]
    fn one_slip_is_a_swap_a_miss_an_extra_or_a_wrong_letter() {
        let near = one_slip_away(&['l', 'a', 'm', 'p']);
        for word in ["lapm", "lap", "amp", "lamps", "blamp", "lump", "damp"] {
            assert!(near.contains(word), "{word}");
        }
        for word in ["lamp", "plam", "lumps", "la"] {
            assert!(!near.contains(word), "{word}");
        }
    }
}
