//! A question's answer.

use super::ask::{Asked, ask};
use super::collect::matches_any;
use super::entry::Hit;
use super::index::Question;
use super::lit::Lit;
use super::mark::Sign;
use super::stages::{Asking, put};
use super::vocabulary::Vocabulary;
use super::ways::{Way, cards, find, set};
use tantivy::TantivyError;
use tantivy::query::{BooleanQuery, Query};

/// What was found, and how the question was understood.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answer {
    /// What answers it, best first.
    pub hits: Vec<Hit>,
    /// The words that nothing is spelled like, with what they were read as.
    pub read_as: Vec<(String, Vec<String>)>,
    /// The words that nothing was found for.
    pub missing: Vec<String>,
    /// The sign that was asked for, with the words that asked for it as they were typed.
    pub asked: Option<(Sign, String)>,
    /// What of a hit matched.
    pub lit: Lit,
    /// Whether no fact has all that was asked, so that the hits have only the most of it.
    pub is_part: bool,
}

/// Answers a question: any text at all.
pub(super) fn answer(vocabulary: &Vocabulary<'_>, question: &Question) -> Result<Answer, TantivyError> {
    let asked = ask(vocabulary, &question.words)?;
    let mut answer = Answer { read_as: asked.read_as.clone(), ..Answer::default() };
    answer.asked = asked.side().zip(asked.signed().map(str::to_string));
    answer.lit.on_side(asked.side());
    let all = usize::try_from(vocabulary.searcher.num_docs()).unwrap_or(usize::MAX);
    let limit = question.limit.min(all);
    let Some(asking) = asking(vocabulary, question, &asked, &mut answer)?.filter(|_| limit > 0) else {
        return Ok(answer);
    };
    let found = put(vocabulary.searcher, vocabulary.fields, &asking, limit)?;
    answer.is_part = found.first().is_some_and(|found| found.is_part);
    let hits = found.into_iter().map(|found| Hit { score: found.score, is_opposite: found.is_opposite, ..found.hit });
    answer.hits = hits.collect();
    Ok(answer)
}

/// What to look for; nothing when nothing of the question is known.
fn asking(
    vocabulary: &Vocabulary<'_>,
    question: &Question,
    asked: &Asked,
    answer: &mut Answer,
) -> Result<Option<Asking>, TantivyError> {
    let mut things: Vec<(u64, Way)> = Vec::new();
    let mut extras = Vec::new();
    let is_alone = asked.things.iter().filter(|thing| !thing.is_weak).count() == 1;
    for thing in &asked.things {
        match find(vocabulary, thing, is_alone, &mut answer.lit)? {
            Some(way) if thing.is_weak => extras.push(way),
            Some(way) => things.push((cost(vocabulary, &way)?, way)),
            None if thing.is_weak => {}
            None => answer.missing.push(thing.typed.clone()),
        }
    }
    if things.is_empty() && !asked.names.is_empty() {
        things.extend(cards(vocabulary, &asked.names).map(|way| (0, way)));
    }
    if things.is_empty() {
        return Ok(None);
    }
    things.sort_by_key(|(cost, _)| *cost);
    let things = things.into_iter().map(|(_, way)| way).collect();
    let filters = filters(vocabulary, question, asked)?;
    Ok(Some(Asking { things, extras, filters, side: asked.side() }))
}

/// How many facts would have to be gone through, at most.
fn cost(vocabulary: &Vocabulary<'_>, way: &Way) -> Result<u64, TantivyError> {
    let mut cost = 0;
    let mut failed = None;
    way.query.query_terms(&mut |term, _| match vocabulary.searcher.doc_freq(term) {
        Ok(count) => cost += count,
        Err(error) => failed = Some(error),
    });
    failed.map_or(Ok(cost), Err)
}

/// What keeps an answer to a card and to kinds.
fn filters(
    vocabulary: &Vocabulary<'_>,
    question: &Question,
    asked: &Asked,
) -> Result<Vec<Box<dyn Query>>, TantivyError> {
    let fields = vocabulary.fields;
    let mut filters = Vec::new();
    if let Some(card) = &question.card {
        filters.push(set(fields.card, std::iter::once(card.as_str()), 0.0));
    }
    if !question.kinds.is_empty() {
        filters.push(set(fields.kind, question.kinds.iter().map(|kind| kind.word()), 0.0));
    }
    let each = || asked.names.iter().map(|name| set(fields.of, std::iter::once(name.as_str()), 0.0));
    // `Merrowby MB6` is one card; `T5 T9` are two.
    match asked.names.as_slice() {
        [] | [_] => filters.extend(each()),
        _ if matches_any(vocabulary.searcher, &BooleanQuery::intersection(each().collect()))? => filters.extend(each()),
        names => filters.push(set(fields.of, names.iter().map(String::as_str), 0.0)),
    }
    Ok(filters)
}
