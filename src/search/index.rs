//! The index: built from a library, asked questions.

use super::entry::{Hit, Kind};
use super::lexicon::Lexicon;
use super::schema::{Fields, schema};
use super::shelf::Shelf;
use super::statistics::{Statistics, holding};
use super::{facts, query};
use crate::model::Library;
use crate::wording::all_nearest;
use std::collections::BTreeSet;
use std::fmt;
use tantivy::collector::{Collector, TopDocs};
use tantivy::query::{EnableScoring, Query};
use tantivy::{Searcher, TantivyError, Term};

/// What the writer may use before it would have to stop; a library of thousands of cards stays far below.
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
        let (schema, fields) = schema();
        let lexicon = Lexicon::of(library);
        // One writer and one segment: the same library gives the same documents in the same order.
        let shelf = Shelf::default();
        let builder = tantivy::Index::builder().schema(schema);
        let mut writer = builder.single_segment_index_writer(shelf.clone(), MEMORY)?;
        for entry in facts::of(library) {
            writer.add_document(fields.document(&entry, &lexicon))?;
        }
        let index = writer.finalize()?;
        Self::on(&index, shelf, fields, lexicon)
    }

    /// An index that is there already: its documents, and the lexicon they were made with. Within each of its
    /// segments the documents stand in the order of [`facts::of`].
    pub(super) fn new(searcher: Searcher, shelf: Shelf, fields: Fields, lexicon: Lexicon) -> Self {
        Self { searcher, shelf, fields, lexicon }
    }

    /// What answers a question, best first; equal hits by card, kind and card order.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn find(&self, question: &Question) -> Result<Vec<Hit>, SearchFault> {
        let all = usize::try_from(self.searcher.num_docs()).unwrap_or(usize::MAX);
        let limit = question.limit.min(all);
        let Some(query) = query::build(&self.fields, &self.lexicon, &question.words).filter(|_| limit > 0) else {
            return Ok(Vec::new());
        };
        let query = query::filtered(&self.fields, query, question.card.as_deref(), &question.kinds);
        self.best(&*query, limit)
    }

    /// The best hits. Each segment gives its own best in card order; together they are put into that order again.
    fn best(&self, query: &dyn Query, limit: usize) -> Result<Vec<Hit>, SearchFault> {
        let statistics = Statistics(&self.searcher);
        let scoring = EnableScoring::enabled_from_statistics_provider(&statistics, &self.searcher);
        let weight = query.weight(scoring)?;
        let top = TopDocs::with_limit(limit).order_by_score();
        let mut hits = Vec::new();
        for (at, segment) in (0..).zip(self.searcher.segment_readers()) {
            let found = top.collect_segment(&*weight, at, segment)?;
            for (score, address) in top.merge_fruits(vec![found])? {
                hits.extend(self.fields.hit(&self.searcher.doc(address)?, score));
            }
        }
        if self.searcher.segment_readers().len() > 1 {
            // The sort is stable: the facts of one card lie in one segment, in card order.
            hits.sort_by(|a, b| b.score.total_cmp(&a.score).then_with(|| (&a.card, a.kind).cmp(&(&b.card, b.kind))));
            hits.truncate(limit);
        }
        Ok(hits)
    }

    /// Whether it holds a fact of the card of this id.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn has_card(&self, id: &str) -> Result<bool, SearchFault> {
        let term = Term::from_field_text(self.fields.card, id);
        for segment in self.searcher.segment_readers() {
            if holding(segment, &term)? > 0 {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// The lexicon it was made with.
    #[must_use]
    pub fn lexicon(&self) -> &Lexicon {
        &self.lexicon
    }

    /// The marks that are spelled nearly as a word of the question, nearest first.
    ///
    /// # Errors
    /// When tantivy can't read its index.
    pub fn nearest_marks(&self, question: &Question) -> Result<Vec<String>, SearchFault> {
        let mut marks = BTreeSet::new();
        for segment in self.searcher.segment_readers() {
            let printed = segment.inverted_index(self.fields.printed)?;
            let mut terms = printed.terms().stream().map_err(TantivyError::from)?;
            while terms.advance() {
                let term = String::from_utf8_lossy(terms.key());
                let is_there = segment.alive_bitset().is_none()
                    || holding(segment, &Term::from_field_text(self.fields.printed, &term))? > 0;
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
