//! The index: built from a library, asked questions.

use super::alive::{holding, in_segment};
use super::answer::{Answer, answer};
use super::entry::{Hit, Kind};
use super::lexicon::Lexicon;
use super::schema::Fields;
use super::shelf::Shelf;
use super::vocabulary::Vocabulary;
use super::writer::Writer;
use crate::model::Library;
use crate::wording::all_nearest;
use std::collections::BTreeSet;
use std::fmt;
use tantivy::{Searcher, TantivyError, Term};

/// What a writer of tantivy's may use before it would have to stop; that of single cards stays far below, and the one of
/// a whole part has no such end.
pub(super) const MEMORY: usize = 50_000_000;

/// What someone asks.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Question {
    /// The words, any text at all.
    pub words: String,
    /// Only facts of this card.
    pub card: Option<String>,
    /// Only these kinds; none: all of them.
    pub kinds: Vec<Kind>,
    /// At most so many hits.
    pub limit: usize,
}

/// Why the index could not be built or asked: memory or disk, never the question.
#[derive(Debug)]
pub struct SearchFault(String);

impl fmt::Display for SearchFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the search index failed: {}", self.0)
    }
}

impl SearchFault {
    pub(super) fn new(message: &str) -> Self {
        Self(message.to_string())
    }
}

impl std::error::Error for SearchFault {}

impl From<TantivyError> for SearchFault {
    fn from(error: TantivyError) -> Self {
        Self(error.to_string())
    }
}

/// An index over all facts of a library.
pub struct Index {
    pub(super) searcher: Searcher,
    /// Where its files are.
    pub(super) shelf: Shelf,
    fields: Fields,
    lexicon: Lexicon,
}

impl fmt::Debug for Index {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Index").field("facts", &self.searcher.num_docs()).finish_non_exhaustive()
    }
}

impl Index {
    /// Indexes every fact of a library, in memory.
    ///
    /// # Errors
    /// When tantivy can't write its index.
    pub fn build(library: &Library) -> Result<Self, SearchFault> {
        let lexicon = Lexicon::of(library);
        let mut writer = Writer::new(&lexicon.rings)?;
        writer.add(library)?;
        Self::of(vec![writer.finish()?], lexicon)
    }

    /// An index that is there already: its documents, and the lexicon they were made with. Within each of its
    /// segments the documents stand in the order of [`facts::of`].
    pub(super) fn new(searcher: Searcher, shelf: Shelf, fields: Fields, lexicon: Lexicon) -> Self {
        Self { searcher, shelf, fields, lexicon }
    }

    /// The lexicon it was made with.
    #[must_use]
    pub fn lexicon(&self) -> &Lexicon {
        &self.lexicon
    }

    /// Whether it holds a fact of the card of this id.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn has_card(&self, id: &str) -> Result<bool, SearchFault> {
        Ok(holding(&self.searcher, &Term::from_field_text(self.fields.card, id))? > 0)
    }

    /// How many cards can be found in it.
    #[must_use]
    pub fn cards(&self) -> usize {
        self.lexicon.cards
    }

    /// What answers a question, best first; equal hits by card, kind and card order.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn find(&self, question: &Question) -> Result<Vec<Hit>, SearchFault> {
        Ok(self.answer(question)?.hits)
    }

    /// The same, with how the question was understood.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn answer(&self, question: &Question) -> Result<Answer, SearchFault> {
        let vocabulary = Vocabulary { searcher: &self.searcher, fields: &self.fields, lexicon: &self.lexicon };
        Ok(answer(&vocabulary, question)?)
    }

    /// The marks that are spelled nearly as a word of the question, nearest first.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn nearest_marks(&self, question: &Question) -> Result<Vec<String>, SearchFault> {
        let mut marks = BTreeSet::new();
        for segment in self.searcher.segment_readers() {
            let printed = segment.inverted_index(self.fields.shown)?;
            let mut terms = printed.terms().stream().map_err(TantivyError::from)?;
            while terms.advance() {
                let term = String::from_utf8_lossy(terms.key());
                let is_there = segment.alive_bitset().is_none()
                    || in_segment(segment, &Term::from_field_text(self.fields.shown, &term))? > 0;
                let Some((card, mark)) = term.split_once('\0') else { continue };
                if is_there && question.card.as_deref().is_none_or(|asked| asked == card) {
                    marks.insert(mark.to_string());
                }
            }
        }
        let mut near: Vec<String> = Vec::new();
        for word in question.words.split_whitespace().take(8) {
            let found = all_nearest(word, marks.iter().map(String::as_str));
            near.extend(found.into_iter().map(str::to_string));
        }
        let mut seen = BTreeSet::new();
        near.retain(|mark| seen.insert(mark.clone()));
        near.truncate(5);
        Ok(near)
    }
}
