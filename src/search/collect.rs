//! Goes through what a query matches and keeps the best. Equal hits come by card, kind and card order, however the
//! index is divided into segments: within each its documents stand in that order.

use super::entry::Hit;
use super::schema::Fields;
use std::cmp::Reverse;
use std::collections::BinaryHeap;
use tantivy::query::{EnableScoring, Query};
use tantivy::{DocAddress, DocId, DocSet, Searcher, SegmentReader, TERMINATED, TantivyError};

/// A hit with its score.
pub(super) struct Found {
    pub(super) hit: Hit,
    pub(super) score: f32,
    pub(super) is_opposite: bool,
    /// It has not all that was asked.
    pub(super) is_part: bool,
}

/// The best hits of a query, at most `limit`. `most` is the highest score that there can be: once so many have it, no
/// better ones follow.
pub(super) fn collect(
    searcher: &Searcher,
    fields: &Fields,
    query: &dyn Query,
    limit: usize,
    most: f32,
) -> Result<Vec<Found>, TantivyError> {
    let weight = query.weight(EnableScoring::enabled_from_searcher(searcher))?;
    let mut found = Vec::new();
    for (segment, reader) in (0..).zip(searcher.segment_readers()) {
        let mut scorer = weight.scorer(reader, 1.0)?;
        let mut best = Best::new(limit, steps(most));
        let mut doc = scorer.doc();
        while doc != TERMINATED && !best.is_final() {
            if is_alive(reader, doc) {
                best.offer(steps(scorer.score()), doc);
            }
            doc = scorer.advance();
        }
        found
            .extend(best.kept.into_iter().map(|Reverse((score, Reverse(doc)))| (score, DocAddress::new(segment, doc))));
    }
    let mut hits = Vec::with_capacity(found.len());
    for (score, address) in found {
        if let Some(hit) = fields.hit(&searcher.doc(address)?) {
            hits.push((Reverse(score), hit.card.clone(), hit.kind, address, hit));
        }
    }
    hits.sort_by(|a, b| (a.0, &a.1, a.2, a.3).cmp(&(b.0, &b.1, b.2, b.3)));
    hits.truncate(limit);
    let found =
        |(Reverse(score), _, _, _, hit)| Found { hit, score: from_steps(score), is_opposite: false, is_part: false };
    Ok(hits.into_iter().map(found).collect())
}

/// Whether a query matches anything.
pub(super) fn matches_any(searcher: &Searcher, query: &dyn Query) -> Result<bool, TantivyError> {
    let weight = query.weight(EnableScoring::disabled_from_searcher(searcher))?;
    for reader in searcher.segment_readers() {
        let mut scorer = weight.scorer(reader, 1.0)?;
        let mut doc = scorer.doc();
        while doc != TERMINATED {
            if is_alive(reader, doc) {
                return Ok(true);
            }
            doc = scorer.advance();
        }
    }
    Ok(false)
}

fn is_alive(reader: &SegmentReader, doc: DocId) -> bool {
    reader.alive_bitset().is_none_or(|alive| alive.is_alive(doc))
}

/// The best of one segment.
struct Best {
    limit: usize,
    most: u32,
    kept: BinaryHeap<Reverse<(u32, Reverse<DocId>)>>,
}

impl Best {
    fn new(limit: usize, most: u32) -> Self {
        Self { limit, most, kept: BinaryHeap::new() }
    }

    fn offer(&mut self, score: u32, doc: DocId) {
        if self.kept.len() >= self.limit {
            if self.worst().is_none_or(|worst| worst >= score) {
                return;
            }
            self.kept.pop();
        }
        self.kept.push(Reverse((score, Reverse(doc))));
    }

    fn worst(&self) -> Option<u32> {
        self.kept.peek().map(|Reverse((score, _))| *score)
    }

    /// Whether nothing that follows can be better.
    fn is_final(&self) -> bool {
        self.kept.len() >= self.limit && self.worst().is_none_or(|worst| worst >= self.most)
    }
}

/// Scores in whole steps, so that the order in which they were summed can't tell two apart.
fn steps(score: f32) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "scores are small and not negative")]
    let steps = (score * 64.0).round().max(0.0) as u32;
    steps
}

fn from_steps(steps: u32) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "scores are small")]
    let score = steps as f32 / 64.0;
    score
}
