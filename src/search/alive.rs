//! How many facts hold a word. Facts of cards that were changed or went stay in the index until it is made anew; they are
//! not counted, so that an index that was changed card by card answers as one that is made anew.

use tantivy::schema::IndexRecordOption;
use tantivy::{DocSet, Searcher, SegmentReader, TERMINATED, Term};

/// How many facts that can be found hold a term.
pub(super) fn holding(searcher: &Searcher, term: &Term) -> tantivy::Result<u64> {
    searcher.segment_readers().iter().map(|segment| in_segment(segment, term)).sum()
}

/// How many facts of a segment that can be found hold a term.
pub(super) fn in_segment(segment: &SegmentReader, term: &Term) -> tantivy::Result<u64> {
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
