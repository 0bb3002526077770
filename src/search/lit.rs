//! What of a hit matched: the words and the mark that a screen marks.

use super::mark::{self, Sign};
use super::text::pieces;
use std::collections::BTreeSet;
use std::ops::Range;

/// The words and marks that a question was matched by.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lit {
    words: BTreeSet<String>,
    bases: BTreeSet<String>,
    side: Option<Sign>,
}

impl Lit {
    pub(super) fn word(&mut self, form: &str) {
        self.words.insert(form.to_string());
    }

    pub(super) fn mark(&mut self, base: &str) {
        self.bases.insert(base.to_string());
    }

    /// On which side of the supply a mark must be to be marked.
    pub(super) fn on_side(&mut self, side: Option<Sign>) {
        self.side = side;
    }

    /// Where a text says what was asked for, in bytes, in order; what stands side by side is one range.
    #[must_use]
    pub fn ranges(&self, text: &str) -> Vec<Range<usize>> {
        let mut ranges: Vec<Range<usize>> = Vec::new();
        for piece in pieces(text) {
            let is_mark = self.is_mark(text.get(piece.at.clone()).unwrap_or_default());
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

    /// Whether a mark is one that was asked for, and not on the other side than the one asked for.
    #[must_use]
    pub fn is_mark(&self, mark: &str) -> bool {
        let key = mark::key(mark);
        let is_other = self.side.is_some() && key.sign == self.side.map(Sign::opposite);
        !is_other && self.bases.contains(&key.base)
    }
}
