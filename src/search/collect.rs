//! Keeps the best of what is walked through. Equal hits come by card, kind and card order, however the index is divided
//! into segments: within each its documents stand in that order.

use super::entry::Hit;
use super::schema::Fields;
use super::walk::{Walk, Wanted};
use std::cmp::Reverse;
use std::collections::BinaryHeap;
use tantivy::query::{EnableScoring, Query};
use tantivy::{DocAddress, DocId, DocSet, Searcher, SegmentReader, TERMINATED, TantivyError};

/// Which scores are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Band {
    pub(super) least: u32,
    /// What scores more is known already.
    pub(super) most: u32,
}

impl Band {
    /// Any score.
    pub(super) const ALL: Self = Self { least: 0, most: u32::MAX };
}

/// The best hits within a band of scores, with what each scores; at most `limit`.
pub(super) fn collect(
    searcher: &Searcher,
    fields: &Fields,
    wanted: &Wanted<'_>,
    mut band: Band,
    limit: usize,
) -> Result<Vec<(Hit, u32)>, TantivyError> {
    let mut kept = Vec::new();
    for (segment, reader) in (0..).zip(searcher.segment_readers()) {
        let Some(mut walk) = Walk::new(searcher, reader, wanted, band)? else { continue };
        let mut best = Best::new(limit, band);
        let mut doc = walk.next(0);
        while doc != TERMINATED && !best.is_final() {
            if is_alive(reader, doc)
                && let Some(score) = walk.score(doc)
                && best.offer(score, doc)
            {
                walk.narrow(best.band);
            }
            doc = walk.next(doc + 1);
        }
        // A fact of the next segment that is as good may stand before one of these.
        band.least = best.worst().unwrap_or(band.least);
        kept.extend(best.kept.into_iter().map(|Reverse((score, Reverse(doc)))| (score, DocAddress::new(segment, doc))));
    }
    let mut hits = Vec::new();
    for (score, address) in kept {
        if let Some(hit) = fields.hit(&searcher.doc(address)?) {
            hits.push((Reverse(score), hit.card.clone(), hit.kind, address, hit));
        }
    }
    hits.sort_by(|a, b| (a.0, &a.1, a.2, a.3).cmp(&(b.0, &b.1, b.2, b.3)));
    hits.truncate(limit);
    Ok(hits.into_iter().map(|(Reverse(score), _, _, _, hit)| (hit, score)).collect())
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
    /// What is wanted still.
    band: Band,
    kept: BinaryHeap<Reverse<(u32, Reverse<DocId>)>>,
}

impl Best {
    fn new(limit: usize, band: Band) -> Self {
        Self { limit, band, kept: BinaryHeap::new() }
    }

    /// Keeps a fact if it is wanted. Whether only better ones are from now on.
    fn offer(&mut self, score: u32, doc: DocId) -> bool {
        if score < self.band.least || score > self.band.most {
            return false;
        }
        if self.kept.len() >= self.limit {
            self.kept.pop();
        }
        self.kept.push(Reverse((score, Reverse(doc))));
        // One that follows stands behind an equal one.
        let least = self.worst().map_or(self.band.least, |worst| worst + 1);
        let is_narrower = least > self.band.least;
        self.band.least = least;
        is_narrower
    }

    /// The score of the worst that is kept, once as many are as are wanted.
    fn worst(&self) -> Option<u32> {
        let worst = self.kept.peek().map(|Reverse((score, _))| *score);
        worst.filter(|_| self.kept.len() >= self.limit)
    }

    /// Whether nothing that follows can be better.
    fn is_final(&self) -> bool {
        self.band.least > self.band.most
    }
}
