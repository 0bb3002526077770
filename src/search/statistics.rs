//! The figures that words are weighed with: how many facts there are, and how many hold a word. They are counted over
//! the facts that can be found, so that an index that was changed card by card weighs as one that is made anew.

use tantivy::query::Bm25StatisticsProvider;
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{DocSet, Searcher, SegmentReader, TERMINATED, Term};

/// How many words a fact is taken to have on average. A constant, so that one changed fact does not change what all
/// the others weigh; near what the demo library has.
const WORDS_OF_A_FACT: u64 = 12;

/// The figures of an index.
pub(super) struct Statistics<'a>(pub(super) &'a Searcher);

impl Bm25StatisticsProvider for Statistics<'_> {
    fn total_num_tokens(&self, _: Field) -> tantivy::Result<u64> {
        Ok(self.0.num_docs() * WORDS_OF_A_FACT)
    }

    fn total_num_docs(&self) -> tantivy::Result<u64> {
        Ok(self.0.num_docs())
    }

    fn doc_freq(&self, term: &Term) -> tantivy::Result<u64> {
        self.0.segment_readers().iter().map(|segment| holding(segment, term)).sum()
    }
}

/// How many facts of a segment that can be found hold a term.
pub(super) fn holding(segment: &SegmentReader, term: &Term) -> tantivy::Result<u64> {
    let index = segment.inverted_index(term.field())?;
    let Some(alive) = segment.alive_bitset() else { return Ok(u64::from(index.doc_freq(term)?)) };
    let Some(mut facts) = index.read_postings(term, IndexRecordOption::Basic)? else { return Ok(0) };
    let mut count = 0;
    while facts.doc() != TERMINATED {
        count += u64::from(alive.is_alive(facts.doc()));
        facts.advance();
    }
    Ok(count)
}
