//! A question's answer.

use super::ask::{Asked, ask};
use super::collect::matches_any;
use super::entry::Hit;
use super::index::Question;
use super::lit::Lit;
use super::mark::Sign;
use super::stages::{Asking, put};
use super::vocabulary::Vocabulary;
use super::ways::{any, cards, find, is};
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

/// Answers a question: any text at all. Where no fact has all that is asked, a mark that is also the name of a card is
/// taken as that name.
pub(super) fn answer(vocabulary: &Vocabulary<'_>, question: &Question) -> Result<Answer, TantivyError> {
    let asked = ask(vocabulary, &question.words, Vec::new())?;
    let answer = answer_to(vocabulary, question, &asked)?;
    let names = asked.also_names();
    if !answer.is_part || names.is_empty() {
        return Ok(answer);
    }
    let narrowed = answer_to(vocabulary, question, &ask(vocabulary, &question.words, names)?)?;
    Ok(if narrowed.hits.is_empty() { answer } else { narrowed })
}

fn answer_to(vocabulary: &Vocabulary<'_>, question: &Question, asked: &Asked) -> Result<Answer, TantivyError> {
    let mut answer = Answer { read_as: asked.read_as.clone(), ..Answer::default() };
    answer.asked = asked.side().zip(asked.signed().map(str::to_string));
    answer.lit.on_side(asked.side());
    let all = usize::try_from(vocabulary.searcher.num_docs()).unwrap_or(usize::MAX);
    let limit = question.limit.min(all);
    let Some(asking) = asking(vocabulary, question, asked, &mut answer)?.filter(|_| limit > 0) else {
        return Ok(answer);
    };
    let found = put(vocabulary.searcher, vocabulary.fields, &asking, limit)?;
    answer.is_part = found.first().is_some_and(|found| found.is_part);
    answer.hits = found.into_iter().map(|found| found.hit).collect();
    Ok(answer)
}

/// What to look for; nothing when nothing of the question is known.
fn asking(
    vocabulary: &Vocabulary<'_>,
    question: &Question,
    asked: &Asked,
    answer: &mut Answer,
) -> Result<Option<Asking>, TantivyError> {
    let mut things = Vec::new();
    let mut extras = Vec::new();
    let is_alone = asked.things.iter().filter(|thing| !thing.is_weak).count() == 1;
    for thing in &asked.things {
        let ways = find(vocabulary, thing, is_alone, &mut answer.lit)?;
        match ways.is_empty() {
            false if thing.is_weak => extras.push(ways),
            false => things.push(ways),
            true if thing.is_weak => {}
            true => answer.missing.push(thing.typed.clone()),
        }
    }
    if things.is_empty() && !asked.names.is_empty() {
        things.push(cards(vocabulary, &asked.names));
    }
    if things.is_empty() {
        return Ok(None);
    }
    let filters = filters(vocabulary, question, asked)?;
    Ok(Some(Asking { things, extras, filters, side: asked.side() }))
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
        filters.push(is(fields.card, card));
    }
    if !question.kinds.is_empty() {
        filters.push(any(fields.kind, question.kinds.iter().map(|kind| kind.word())));
    }
    let each = || asked.names.iter().map(|name| is(fields.of, name));
    // `Merrowby MB6` is one card; `T5 T9` are two.
    match asked.names.as_slice() {
        [] | [_] => filters.extend(each()),
        _ if matches_any(vocabulary.searcher, &BooleanQuery::intersection(each().collect()))? => filters.extend(each()),
        names => filters.push(any(fields.of, names.iter().map(String::as_str))),
    }
    Ok(filters)
}
