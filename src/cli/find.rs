//! `wirelore find`: a question to the whole library.

use super::open::{Opened, open};
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::search::{Hit, Index, Question, SearchFault};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Answers a question as text or as JSON; nothing found is an exit code of its own.
pub(super) fn run(library: Option<PathBuf>, question: &Question, as_json: bool) -> Ended {
    let opened = open(library)?;
    if let Some(card) = question.card.as_deref().filter(|card| opened.library.card(card).is_none()) {
        return Err(no_such_card(&opened.library, card));
    }
    let failed = |fault: SearchFault| Report::machine(format!("error: {fault}"));
    let index = Index::build(&opened.library).map_err(failed)?;
    let hits = index.find(question).map_err(failed)?;
    let mut report = Report::done(if as_json { as_json_text(question, &hits) } else { as_text(&hits) });
    if hits.is_empty() {
        let near = index.nearest_marks(question).map_err(failed)?;
        report.say(nothing_found(&opened, question, &near), Outcome::Content);
    }
    opened.warn(&mut report);
    Ok(report)
}

fn nothing_found(opened: &Opened, question: &Question, near: &[String]) -> String {
    let place = match &question.card {
        Some(card) => format!("on {card}"),
        None => format!("in {} cards", cards(opened)),
    };
    let kinds: Vec<&str> = question.kinds.iter().map(|k| k.word()).collect();
    let kinds = if kinds.is_empty() { String::new() } else { format!(" of kind {}", kinds.join(", ")) };
    let near = if near.is_empty() { String::new() } else { format!(" Nearest marks: {}", near.join(", ")) };
    format!("Nothing found for \"{}\"{kinds} {place}.{near}", question.words)
}

fn cards(opened: &Opened) -> usize {
    let library = &opened.library;
    library.panels.len() + library.boards.len() + library.devices.len() + library.supplies.len()
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
