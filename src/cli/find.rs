//! `wirelore find`: a question to the whole library.

use super::finder::{Finder, Keeping};
use super::open::open;
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::search::{Hit, Question};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Answers a question as text or as JSON; nothing found is an exit code of its own.
pub(super) fn run(library: Option<PathBuf>, question: &Question, as_json: bool, keeping: Keeping) -> Ended {
    let mut finder = Finder::open(library.clone(), keeping)?;
    if let Some(card) = &question.card
        && !finder.has_card(card)?
    {
        is_there(library, card)?;
    }
    let hits = finder.find(question)?;
    let mut report = Report::done(if as_json { as_json_text(question, &hits) } else { as_text(&hits) });
    if hits.is_empty() {
        let near = finder.nearest_marks(question)?;
        report.say(nothing_found(finder.cards(), question, &near), Outcome::Content);
    }
    finder.warn(&mut report);
    Ok(report)
}

/// That a card is there at all: of a cable type no fact can be found.
fn is_there(library: Option<PathBuf>, card: &str) -> Result<(), Report> {
    let library = open(library)?.library;
    if library.card(card).is_none() { Err(no_such_card(&library, card)) } else { Ok(()) }
}

fn nothing_found(cards: usize, question: &Question, near: &[String]) -> String {
    let place = match &question.card {
        Some(card) => format!("on {card}"),
        None => format!("in {cards} cards"),
    };
    let kinds: Vec<&str> = question.kinds.iter().map(|k| k.word()).collect();
    let kinds = if kinds.is_empty() { String::new() } else { format!(" of kind {}", kinds.join(", ")) };
    let near = if near.is_empty() { String::new() } else { format!(" Nearest marks: {}", near.join(", ")) };
    format!("Nothing found for \"{}\"{kinds} {place}.{near}", question.words)
}

/// Hits grouped by card, the card of the best hit first.
fn as_text(hits: &[Hit]) -> String {
    let mut cards: Vec<&str> = Vec::new();
    for hit in hits {
        if !cards.contains(&hit.card.as_str()) {
            cards.push(&hit.card);
        }
    }
    let groups = cards.into_iter().map(|card| {
        let of_card: Vec<&Hit> = hits.iter().filter(|h| h.card == card).collect();
        let name = of_card.first().map_or(card, |h| h.card_name.as_str());
        let rows: String = of_card.into_iter().map(row).collect();
        format!("{name} ({card})\n{rows}")
    });
    groups.collect::<Vec<_>>().join("\n")
}

/// One hit: first what it does, then danger, volts, fuse, and how it is known.
fn row(hit: &Hit) -> String {
    let what = hit.mark.clone().unwrap_or_else(|| hit.kind.word().to_string());
    let kind = if hit.mark.is_some() { format!("  ({})", hit.kind.word()) } else { String::new() };
    let mut lines = hit.text.lines();
    let mut text = format!("  {what}  {}{kind}\n", lines.next().unwrap_or_default());
    for line in lines {
        let _ = writeln!(text, "      {line}");
    }
    let facts = [("Danger", &hit.danger), ("Volts", &hit.volts), ("Fuse", &hit.fuse), ("Known", &hit.known)];
    for (label, fact) in facts {
        if let Some(fact) = fact {
            let _ = writeln!(text, "      {label}: {fact}");
        }
    }
    text
}

fn as_json_text(question: &Question, hits: &[Hit]) -> String {
    let hits: Vec<Value> = hits.iter().map(as_json).collect();
    json_text(&json!({ "query": question.words, "hits": hits }))
}

fn as_json(hit: &Hit) -> Value {
    json!({
        "card": hit.card,
        "kind": hit.kind.word(),
        "mark": hit.mark,
        "title": hit.title,
        "text": hit.text,
        "score": hit.score,
        "danger": hit.danger,
        "volts": hit.volts,
        "fuse": hit.fuse,
        "known": hit.known,
    })
}

/// JSON for standard output: signs that could drive a terminal are written as JSON's own escapes.
pub(super) fn json_text(value: &Value) -> String {
    let mut text = String::new();
    for c in format!("{value:#}\n").chars() {
        match c {
            '\n' => text.push(c),
            // Only strings hold such signs, so the escape is good JSON.
            c if c.is_control() || crate::diagnostics::harmless(c.encode_utf8(&mut [0; 4])) == "\u{fffd}" => {
                let _ = write!(text, "\\u{:04x}", u32::from(c));
            }
            c => text.push(c),
        }
    }
    text
}
