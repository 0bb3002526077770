//! What of a hit matched: the words and the mark that a screen marks.

use super::mark;
use super::text::pieces;
use std::collections::BTreeSet;
use std::ops::Range;

/// The words and marks that a question was matched by.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lit {
    words: BTreeSet<String>,
    bases: BTreeSet<String>,
}

impl Lit {
    pub(super) fn word(&mut self, form: &str) {
        self.words.insert(form.to_string());
    }

    pub(super) fn mark(&mut self, base: &str) {
        self.bases.insert(base.to_string());
    }

    /// Where a text says what was asked for, in bytes, in order; what stands side by side is one range.
    #[must_use]
    pub fn ranges(&self, text: &str) -> Vec<Range<usize>> {
        let mut ranges: Vec<Range<usize>> = Vec::new();
        for piece in pieces(text) {
            let is_mark = self.bases.contains(&mark::key(&piece.word).base);
            if !is_mark && !piece.forms.iter().any(|form| self.words.contains(form)) {
                continue;
            }
            let between = |last: &Range<usize>| text.get(last.end..piece.at.start).unwrap_or("?");
            match ranges.last_mut().filter(|last| between(last).chars().all(|c| matches!(c, ' ' | '-' | '/'))) {
                Some(last) => last.end = piece.at.end,
                None => ranges.push(piece.at),
            }
        }
        ranges
    }

    /// Whether a mark is one that was asked for, its sign left aside.
    #[must_use]
    pub fn is_mark(&self, mark: &str) -> bool {
        self.bases.contains(&mark::key(mark).base)
    }
}
