//! Walks through the facts of a segment that may answer, and scores each: tantivy says where a word or a phrase is, and
//! here it is put together. Only the rarest of what a fact must have is gone through; the rest is looked up beside it.

use super::collect::Band;
use super::way::{Way, most, scores, with_each};
use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::ops::RangeInclusive;
use tantivy::query::{EnableScoring, Query, Scorer};
use tantivy::{DocId, Searcher, SegmentReader, TERMINATED, TantivyError};

/// What a fact must have, and what counts.
pub(super) struct Wanted<'a> {
    /// The things that are asked, each in any of its ways.
    pub(super) things: &'a [Vec<Way>],
    /// How many of them it has: so many at least, and no fact has more.
    pub(super) counts: RangeInclusive<usize>,
    /// What each counts besides how it is found.
    pub(super) each: u32,
    /// What counts when it is found.
    pub(super) extras: &'a [Vec<Way>],
    /// What all must match, without a change of score.
    pub(super) filters: Vec<Box<dyn Query>>,
    /// What none must match.
    pub(super) without: Option<Box<dyn Query>>,
}

impl Wanted<'_> {
    /// The most that a fact could score, had it all of the things.
    pub(super) fn highest(&self) -> u32 {
        self.things.iter().map(|ways| most(ways) + self.each).sum::<u32>() + self.besides()
    }

    fn besides(&self) -> u32 {
        self.extras.iter().map(|ways| most(ways)).sum()
    }

    /// Every score that a fact can have, the least first; `None` when they are too many.
    pub(super) fn scores(&self) -> Option<BTreeSet<u32>> {
        // By how many of the things it has.
        let mut sums = vec![BTreeSet::new(); self.things.len() + 1];
        sums.first_mut()?.insert(0);
        for ways in self.things {
            let each = scores(ways)?.into_iter().map(|score| score + self.each).collect();
            for count in (1..sums.len()).rev() {
                let with = with_each(sums.get(count - 1)?, &each)?;
                sums.get_mut(count)?.extend(with);
            }
        }
        let mut sums: BTreeSet<u32> = sums.get(self.counts.clone())?.iter().flatten().copied().collect();
        for ways in self.extras {
            sums = &sums | &with_each(&sums, &scores(ways)?)?;
        }
        Some(sums)
    }

    /// For each thing, what a way to find it must count at least to be of use within a band: all else that a fact can
    /// have counts so much at most.
    fn of_use(&self, band: Band) -> Vec<u32> {
        // A fact with more things would score more than the band has.
        let no_more = *self.counts.end();
        let count = band.most.checked_div(self.each).map_or(no_more, |count| no_more.min(count as usize));
        let each = |at: usize| self.things.get(at).map_or(0, |ways| most(ways) + self.each);
        let others = |at: usize| {
            let mut others: Vec<u32> = (0..self.things.len()).filter(|other| *other != at).map(each).collect();
            others.sort_unstable_by_key(|score| Reverse(*score));
            others.iter().take(count.saturating_sub(1)).sum::<u32>() + self.each + self.besides()
        };
        (0..self.things.len()).map(|at| band.least.saturating_sub(others(at))).collect()
    }
}

/// A walk through one segment.
pub(super) struct Walk<'a> {
    wanted: &'a Wanted<'a>,
    /// The rarest first, each with its place among those that are asked.
    things: Vec<(usize, Finders)>,
    extras: Vec<Finders>,
    filters: Vec<Cursor>,
    without: Option<Cursor>,
}

impl<'a> Walk<'a> {
    /// A walk through the facts within a band of scores; `None` when the segment has none.
    pub(super) fn new(
        searcher: &Searcher,
        reader: &SegmentReader,
        wanted: &'a Wanted<'a>,
        band: Band,
    ) -> Result<Option<Self>, TantivyError> {
        let open = |query: &dyn Query| -> Result<Cursor, TantivyError> {
            let weight = query.weight(EnableScoring::disabled_from_searcher(searcher))?;
            Ok(Cursor::new(weight.scorer(reader, 1.0)?))
        };
        let mut filters = wanted.filters.iter().map(|query| open(query.as_ref())).collect::<Result<Vec<_>, _>>()?;
        filters.sort_by_key(Cursor::size);
        let without = wanted.without.as_ref().map(|query| open(query.as_ref())).transpose()?;
        let extras = wanted.extras.iter().map(|ways| Finders::open(ways, 0, &open)).collect::<Result<Vec<_>, _>>()?;
        let mut things = Vec::new();
        for (at, (ways, least)) in wanted.things.iter().zip(wanted.of_use(band)).enumerate() {
            let found = Finders::open(ways, least, &open)?;
            if !found.0.is_empty() {
                things.push((at, found));
            }
        }
        if things.len() < *wanted.counts.start() || filters.iter().any(Cursor::is_at_end) {
            return Ok(None);
        }
        things.sort_by_key(|(_, thing)| thing.size());
        Ok(Some(Self { wanted, things, extras, filters, without }))
    }

    /// Keeps from now on to facts within this band, which is within the one before.
    pub(super) fn narrow(&mut self, band: Band) {
        let of_use = self.wanted.of_use(band);
        for (at, thing) in &mut self.things {
            let least = of_use.get(*at).copied().unwrap_or_default();
            thing.0.retain(|finder| finder.most() >= least);
        }
    }

    /// The things of which any fact has one: of three things, a fact with two has one of any two.
    fn rarest(&mut self) -> &mut [(usize, Finders)] {
        let count = (self.things.len() + 1).saturating_sub(*self.wanted.counts.start());
        self.things.get_mut(..count).unwrap_or_default()
    }

    /// The next fact from this one on that may be wanted; [`TERMINATED`] when there is none.
    pub(super) fn next(&mut self, mut from: DocId) -> DocId {
        loop {
            let doc = self.rarest().iter_mut().map(|(_, thing)| thing.next(from)).min().unwrap_or(TERMINATED);
            from = self.filters.iter_mut().map(|filter| filter.next(doc)).max().unwrap_or(doc);
            if from == doc {
                return doc;
            }
        }
    }

    /// What a fact that may be wanted scores; `None` when it is not.
    pub(super) fn score(&mut self, doc: DocId) -> Option<u32> {
        let mut lacking = self.things.len().checked_sub(*self.wanted.counts.start())?;
        let mut score = 0;
        for (_, thing) in &mut self.things {
            match thing.score(doc) {
                Some(found) => score += found + self.wanted.each,
                None => lacking = lacking.checked_sub(1)?,
            }
        }
        if self.without.as_mut().is_some_and(|without| without.is_at(doc)) {
            return None;
        }
        let extras = self.extras.iter_mut().filter_map(|extra| extra.score(doc));
        Some(score + extras.sum::<u32>())
    }
}

/// Where a way finds facts of one segment.
enum Finder {
    One { cursor: Cursor, score: u32 },
    Together { things: Vec<Finders>, most: u32 },
}

/// Several ways to find one thing, the one that counts most first.
struct Finders(Vec<Finder>);

impl Finders {
    /// Those ways that count so much at least.
    fn open(
        ways: &[Way],
        least: u32,
        open: &impl Fn(&dyn Query) -> Result<Cursor, TantivyError>,
    ) -> Result<Self, TantivyError> {
        let mut finders = Vec::new();
        for way in ways.iter().filter(|way| way.most() >= least) {
            match way {
                Way::One { query, score } => {
                    let cursor = open(query.as_ref())?;
                    if !cursor.is_at_end() {
                        finders.push(Finder::One { cursor, score: *score });
                    }
                }
                Way::Together(things) => {
                    let spare = way.most() - least;
                    let each = |ways: &Vec<Way>| Self::open(ways, most(ways).saturating_sub(spare), open);
                    let mut things = things.iter().map(each).collect::<Result<Vec<_>, _>>()?;
                    if things.iter().all(|thing| !thing.0.is_empty()) {
                        things.sort_by_key(Self::size);
                        finders.push(Finder::Together { things, most: way.most() });
                    }
                }
            }
        }
        finders.sort_by_key(|finder| Reverse(finder.most()));
        Ok(Self(finders))
    }

    /// How many facts there are to go through, at most.
    fn size(&self) -> u64 {
        self.0.iter().map(Finder::size).sum()
    }

    fn next(&mut self, from: DocId) -> DocId {
        self.0.iter_mut().map(|finder| finder.next(from)).min().unwrap_or(TERMINATED)
    }

    fn score(&mut self, doc: DocId) -> Option<u32> {
        let mut best = None;
        for finder in &mut self.0 {
            if best.is_some_and(|best| best >= finder.most()) {
                break;
            }
            best = best.max(finder.score(doc));
        }
        best
    }
}

impl Finder {
    fn most(&self) -> u32 {
        match self {
            Self::One { score, .. } => *score,
            Self::Together { most, .. } => *most,
        }
    }

    fn size(&self) -> u64 {
        match self {
            Self::One { cursor, .. } => cursor.size(),
            Self::Together { things, .. } => things.first().map_or(0, Finders::size),
        }
    }

    /// No fact before this one, from a fact on, is found.
    fn next(&mut self, from: DocId) -> DocId {
        match self {
            Self::One { cursor, .. } => cursor.next(from),
            Self::Together { things, .. } => things.first_mut().map_or(TERMINATED, |thing| thing.next(from)),
        }
    }

    fn score(&mut self, doc: DocId) -> Option<u32> {
        match self {
            Self::One { cursor, score } => cursor.is_at(doc).then_some(*score),
            Self::Together { things, .. } => things.iter_mut().map(|thing| thing.score(doc)).sum(),
        }
    }
}

/// A place among what a query finds in a segment; where it is, is asked for at every fact.
struct Cursor {
    scorer: Box<dyn Scorer>,
    doc: DocId,
}

impl Cursor {
    fn new(scorer: Box<dyn Scorer>) -> Self {
        Self { doc: scorer.doc(), scorer }
    }

    fn size(&self) -> u64 {
        u64::from(self.scorer.size_hint())
    }

    fn is_at_end(&self) -> bool {
        self.doc == TERMINATED
    }

    /// Goes to the first fact that is not before this one.
    fn next(&mut self, from: DocId) -> DocId {
        if self.doc < from {
            self.doc = self.scorer.seek(from);
        }
        self.doc
    }

    fn is_at(&mut self, doc: DocId) -> bool {
        self.next(doc) == doc
    }
}
