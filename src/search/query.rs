//! A question's words become a query: for each word the best of several ways to match it, summed over the words.
//! The scores only order hits; they are ours, chosen so that an exact mark comes before everything else.

use super::entry::Kind;
use super::lexicon::Lexicon;
use super::schema::{Fields, joined};
use super::token::{Word, opposite, split_sign, stem, words};
use std::collections::BTreeSet;
use tantivy::Term;
use tantivy::query::{
    BooleanQuery, BoostQuery, ConstScoreQuery, DisjunctionMaxQuery, Occur, Query, TermQuery, TermSetQuery,
};
use tantivy::schema::{Field, IndexRecordOption};

/// The mark, letter for letter and sign for sign.
const MARK: f32 = 1000.0;
/// The mark with its sign at the other end: `-12V` and `12V-`.
const MOVED: f32 = 300.0;
/// A whole name of a card.
const NAME: f32 = 90.0;
/// The mark but for a sign that the question does not give.
const BASE: f32 = 80.0;
/// A mark that a ring says is the same.
const RING_MARK: f32 = 60.0;
/// A word that says which kind of fact is asked for.
const KIND: f32 = 70.0;
/// A mark that the fact is about besides its own.
const RELATED: f32 = 35.0;
/// The mark without the sign that the question gives.
const UNSIGNED: f32 = 30.0;
/// A word of the card's name.
const CONTEXT: f32 = 20.0;
/// A word in the text: times tantivy's own figure, about 1 to 15.
const WORDS: f32 = 1.5;
/// A word that a ring says is the same.
const RING_WORDS: f32 = 1.0;
/// What it counts that a word is there at all, beside tantivy's figure for it.
const THERE: f32 = 5.0;
/// A part of a word.
const PART: f32 = 0.8;
/// What a word that is not shown counts beside one that is.
const EXTRA: f32 = 0.75;
/// What is left of a score where the mark has the opposite of the sign asked for.
const OPPOSITE: f32 = 0.0001;

/// Words of a question past this many are not looked at.
const MOST_WORDS: usize = 48;
/// No token of a library is longer; nothing longer is looked for.
const LONGEST_TOKEN: usize = 200;

/// Words that ask and do not name. A single `a` may still be a mark.
const FILLERS: [&str; 31] = [
    "a", "an", "and", "are", "at", "by", "can", "do", "does", "for", "from", "how", "i", "in", "is", "it", "my", "of",
    "on", "or", "that", "the", "there", "this", "to", "what", "when", "where", "which", "who", "with",
];

/// Words that name a kind of fact.
const KINDS: [(&str, Kind); 11] = [
    ("fuse", Kind::Fuse),
    ("zone", Kind::Zone),
    ("link", Kind::Link),
    ("jumper", Kind::Link),
    ("marking", Kind::Marking),
    ("caution", Kind::Caution),
    ("warning", Kind::Caution),
    ("danger", Kind::Caution),
    ("note", Kind::Note),
    ("terminal", Kind::Terminal),
    ("screw", Kind::Terminal),
];

/// The query of a question's words; nothing when no word is left.
pub(super) fn build(fields: &Fields, lexicon: &Lexicon, question: &str) -> Option<Box<dyn Query>> {
    let mut words = words(question);
    words.truncate(MOST_WORDS);
    let asked = asked(&words);
    let mut clauses: Vec<(Occur, Box<dyn Query>)> = Vec::new();
    for asked in &asked {
        clauses.push((Occur::Should, best(one(fields, lexicon, asked))));
    }
    for part in words.iter().flat_map(|w| &w.parts).filter(|p| p.len() > 1 && !is_filler(p)) {
        clauses.push((Occur::Should, best(text(fields, &stem(part), PART))));
    }
    if clauses.is_empty() {
        return None;
    }
    let core: Box<dyn Query> = Box::new(BooleanQuery::new(clauses));
    Some(without_opposites(fields, lexicon, &asked, core))
}

/// A token that is looked for.
#[derive(Debug)]
struct Asked {
    token: String,
    /// How many words it is.
    words: f32,
    /// What it counts when it is the mark, letter for letter.
    mark: f32,
}

/// The tokens that are looked for: each word but the fillers, and neighbours written as one.
fn asked(words: &[Word]) -> Vec<Asked> {
    let is_short = words.len() <= 2;
    let mut asked = Vec::new();
    for (at, word) in words.iter().enumerate() {
        let token = word.whole.clone();
        // In `which fuse for AUX+` the fuse is no mark, though one panel prints FUSE beside a holder.
        let is_kind = words.len() > 1 && !word.like_mark && kind(&stem(&token)).is_some();
        if is_short || (word.like_mark && token.len() < 3) || !is_filler(&token) {
            asked.push(Asked { token, words: 1.0, mark: if is_kind { BASE } else { MARK } });
        }
        asked.extend(joined(words, at).map(|(count, token)| {
            #[expect(clippy::cast_precision_loss, reason = "at most three")]
            let words = count as f32;
            Asked { token, words, mark: MARK * words }
        }));
    }
    asked.retain(|asked| asked.token.len() <= LONGEST_TOKEN);
    asked
}

/// The kind of fact that a word names.
fn kind(word: &str) -> Option<Kind> {
    KINDS.iter().find(|(name, _)| *name == word).map(|(_, kind)| *kind)
}

fn is_filler(word: &str) -> bool {
    FILLERS.contains(&word)
}

/// Every way to match one token. As a name or as words, neighbours written as one count as often as they are words.
fn one(fields: &Fields, lexicon: &Lexicon, asked: &Asked) -> Vec<Box<dyn Query>> {
    let Asked { token, words, mark } = asked;
    let mut ways = vec![
        exact(fields.mark, token, *mark),
        exact(fields.name, token, NAME * words),
        exact(fields.related, token, RELATED),
    ];
    match split_sign(token) {
        None => ways.push(exact(fields.base, token, BASE)),
        Some((base, sign)) => {
            ways.push(exact(fields.mark, base, UNSIGNED));
            ways.extend(moved(token, base, sign).map(|other| exact(fields.mark, &other, MOVED)));
        }
    }
    for other in same(lexicon, token) {
        ways.push(exact(fields.mark, &other, RING_MARK));
        if split_sign(token).is_none() {
            ways.push(exact(fields.base, &other, RING_MARK - 5.0));
            ways.extend(text(fields, &other, RING_WORDS * words));
        }
    }
    let stemmed = stem(token);
    ways.push(exact(fields.context, &stemmed, CONTEXT));
    ways.extend(text(fields, &stemmed, WORDS * words));
    ways.extend(kind(&stemmed).map(|kind| exact(fields.kind, kind.word(), KIND)));
    ways
}

/// The same mark with its sign at the other end.
fn moved(token: &str, base: &str, sign: char) -> impl Iterator<Item = String> {
    [format!("{base}{sign}"), format!("{sign}{base}")].into_iter().filter(move |other| other != token)
}

/// What a ring puts in a token's place, its sign kept.
fn same(lexicon: &Lexicon, token: &str) -> Vec<String> {
    let whole = lexicon.others(token).map(str::to_string);
    let (base, sign) = split_sign(token).map_or(("", None), |(base, sign)| (base, Some(sign)));
    let signed = lexicon.others(base).filter_map(|other| sign.map(|sign| format!("{other}{sign}")));
    whole.chain(signed).collect()
}

/// Puts facts about the opposite of an asked sign below all others: `A-` never lists `A+` first.
fn without_opposites(fields: &Fields, lexicon: &Lexicon, asked: &[Asked], core: Box<dyn Query>) -> Box<dyn Query> {
    let wanted: BTreeSet<&str> = asked.iter().map(|asked| asked.token.as_str()).collect();
    let signed = asked.iter().map(|asked| &asked.token).filter(|t| split_sign(t).is_some() || is_lone_sign(t));
    let all = signed.flat_map(|token| {
        let ends = split_sign(token).into_iter().flat_map(|(base, sign)| moved(token, base, sign));
        same(lexicon, token).into_iter().chain(ends).chain([token.clone()])
    });
    let opposites: BTreeSet<String> =
        all.filter_map(|token| opposite(&token)).filter(|o| !wanted.contains(o.as_str())).collect();
    if opposites.is_empty() {
        return core;
    }
    let terms: Vec<Term> = opposites.iter().map(|o| Term::from_field_text(fields.mark, o)).collect();
    let other_side =
        || -> Box<dyn Query> { Box::new(ConstScoreQuery::new(Box::new(TermSetQuery::new(terms.clone())), 0.0)) };
    let asked_side = BooleanQuery::new(vec![(Occur::Must, core.box_clone()), (Occur::MustNot, other_side())]);
    let opposite_side = BooleanQuery::new(vec![(Occur::Must, core), (Occur::Must, other_side())]);
    Box::new(BooleanQuery::union(vec![
        Box::new(asked_side),
        Box::new(BoostQuery::new(Box::new(opposite_side), OPPOSITE)),
    ]))
}

fn is_lone_sign(token: &str) -> bool {
    matches!(token, "+" | "-")
}

/// Keeps only the facts of a card and of some kinds, without a change of score.
pub(super) fn filtered(fields: &Fields, query: Box<dyn Query>, card: Option<&str>, kinds: &[Kind]) -> Box<dyn Query> {
    let mut clauses = vec![(Occur::Must, query)];
    if let Some(card) = card {
        clauses.push((Occur::Must, exact(fields.card, card, 0.0)));
    }
    if !kinds.is_empty() {
        let terms = kinds.iter().map(|kind| Term::from_field_text(fields.kind, kind.word()));
        clauses.push((Occur::Must, Box::new(ConstScoreQuery::new(Box::new(TermSetQuery::new(terms)), 0.0))));
    }
    Box::new(BooleanQuery::new(clauses))
}

/// Of several ways to match a word the best alone counts, so that exact marks are equal and come in card order, the
/// terminal before the note about it.
fn best(ways: Vec<Box<dyn Query>>) -> Box<dyn Query> {
    Box::new(DisjunctionMaxQuery::new(ways))
}

fn exact(field: Field, token: &str, score: f32) -> Box<dyn Query> {
    let term = Term::from_field_text(field, token);
    Box::new(ConstScoreQuery::new(Box::new(TermQuery::new(term, IndexRecordOption::Basic)), score))
}

/// A word in the texts. That it is there at all counts most, so that a fact with two of the words asked for comes
/// before one that says the rarer of them in fewer words.
fn text(fields: &Fields, token: &str, weight: f32) -> Vec<Box<dyn Query>> {
    let scored = |field, boost: f32| -> Box<dyn Query> {
        let term = TermQuery::new(Term::from_field_text(field, token), IndexRecordOption::WithFreqs);
        let rarity: Box<dyn Query> = Box::new(BoostQuery::new(Box::new(term), boost));
        Box::new(BooleanQuery::union(vec![exact(field, token, boost * THERE), rarity]))
    };
    vec![scored(fields.words, weight), scored(fields.extra, weight * EXTRA)]
}
