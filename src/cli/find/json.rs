//! An answer for other programs.

use crate::search::{Answer, Hit, Question};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// The answer to a question as JSON.
pub(super) fn answer(question: &Question, answer: &Answer) -> String {
    let hits: Vec<Value> = answer.hits.iter().map(hit).collect();
    let read: Vec<Value> = answer.read_as.iter().map(|(typed, read)| json!({ "typed": typed, "read": read })).collect();
    json_text(&json!({
        "query": question.words,
        "hits": hits,
        "read_as": read,
        "missing": answer.missing,
        "part": answer.is_part,
    }))
}

fn hit(hit: &Hit) -> Value {
    json!({
        "card": hit.card,
        "kind": hit.kind.word(),
        "mark": hit.mark,
        "title": hit.title,
        "text": hit.text,
        "score": hit.score,
        "opposite": hit.is_opposite,
        "danger": hit.danger,
        "volts": hit.volts,
        "fuse": hit.fuse,
        "check": hit.check,
        "known": hit.known,
    })
}

/// JSON for standard output: signs that could drive a terminal are written as JSON's own escapes.
pub(in crate::cli) fn json_text(value: &Value) -> String {
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
