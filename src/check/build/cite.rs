//! Sources and cites.

use super::super::keys::words;
use super::super::sheet::{Sheet, spelling};
use super::look;
use crate::model::{Cite, SourceText};
use crate::source::{Node, Value};

/// The card's sources, in card order.
pub(crate) fn sources(root: &Node) -> Vec<SourceText> {
    let entries = root.get("sources").and_then(Node::entries).unwrap_or_default();
    let source = |key: &str, block: &Node| {
        Some(SourceText {
            key: key.to_owned(),
            how: look::word(block, "how", &words::HOW)?,
            title: look::text(block, "title"),
            date: look::date(block, "date"),
        })
    };
    entries.iter().filter_map(|entry| source(entry.key.text()?, &entry.value)).collect()
}

/// Reports every cite in the tree whose first word is no key of the card's `sources`.
pub(crate) fn check(sheet: &mut Sheet<'_>, root: &Node) {
    let entries = root.get("sources").and_then(Node::entries).unwrap_or_default();
    let known: Vec<&str> = entries.iter().filter_map(|entry| entry.key.text()).collect();
    walk(sheet, root, &known);
}

fn walk(sheet: &mut Sheet<'_>, node: &Node, known: &[&str]) {
    match &node.value {
        Value::List(nodes) => nodes.iter().for_each(|n| walk(sheet, n, known)),
        Value::Map(entries) => {
            for entry in entries {
                match entry.key.text() {
                    Some("cite") => look::many(node, "cite").into_iter().for_each(|n| one(sheet, n, known)),
                    Some("sources") => {}
                    _ => walk(sheet, &entry.value, known),
                }
            }
        }
        Value::Empty | Value::Scalar(_) => {}
    }
}

fn one(sheet: &mut Sheet<'_>, node: &Node, known: &[&str]) {
    let Some(word) = look::own_text(node).and_then(|text| text.split_whitespace().next()) else { return };
    if known.contains(&word) || word == "none" {
        return;
    }
    let help = match known {
        [] => "give the card `sources`: `sources: { manual: { how: manual, title: \"…\" } }`".into(),
        _ => spelling(word, known),
    };
    sheet.fault(node.span, format!("`{word}` is no source of this card"), help);
}

/// Where a block is from.
pub(crate) fn of(block: &Node, sources: &[SourceText]) -> Vec<Cite> {
    let cite = |text: String| {
        let (word, place) = text.trim().split_once(char::is_whitespace).unwrap_or((text.trim(), ""));
        let how = sources.iter().find(|source| source.key == word)?.how;
        Some(Cite { source: word.to_owned(), place: place.trim().to_owned(), how })
    };
    look::texts(block, "cite").into_iter().filter_map(cite).collect()
}
