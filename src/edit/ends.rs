//! Where what stands in a text begins and ends, and how its lines end. A reader tells where a value begins; where a
//! block or a bracket ends follows from what is last in it.

use crate::source::{Entry, Node, Value};
use std::ops::Range;

/// Whether a list or a block is written in brackets, and not line by line.
pub(super) fn is_bracketed(body: &str, node: &Node) -> bool {
    node.span.length == 1 && body.get(node.span.start..).is_some_and(|rest| rest.starts_with(['{', '[']))
}

/// Whether a value comes through an alias, `*name`.
pub(super) fn is_alias(body: &str, node: &Node) -> bool {
    body.get(node.span.start..).is_some_and(|rest| rest.starts_with('*'))
}

/// The byte after a value.
pub(super) fn end(body: &str, node: &Node) -> usize {
    let own = node.span.start + node.span.length;
    if is_alias(body, node) {
        return own;
    }
    let last = match &node.value {
        Value::Scalar(_) => return trimmed(body, node.span.start..own),
        Value::Empty => return own,
        Value::List(nodes) => nodes.last().map(|node| end(body, node)),
        Value::Map(entries) => entries.last().map(|entry| end_of_entry(body, entry)),
    };
    if is_bracketed(body, node) { bracket(body, last.unwrap_or(own)) } else { last.unwrap_or(own) }
}

/// The byte after a key with its value.
pub(super) fn end_of_entry(body: &str, entry: &Entry) -> usize {
    end(body, &entry.value).max(entry.key.span.start + entry.key.span.length)
}

/// The end of a range without the line ends and spaces that a block text has after it.
fn trimmed(body: &str, range: Range<usize>) -> usize {
    let text = body.get(range.clone()).unwrap_or_default();
    range.start + text.trim_end().len()
}

/// The byte after the bracket that closes, from where its last value ends: commas, spaces and comments lie between.
fn bracket(body: &str, from: usize) -> usize {
    let mut at = from;
    while let Some(rest) = body.get(at..).filter(|rest| !rest.is_empty()) {
        match rest.chars().next() {
            Some('}' | ']') => return at + 1,
            Some('#') => at += rest.find('\n').unwrap_or(rest.len()),
            Some(other) => at += other.len_utf8(),
            None => break,
        }
    }
    at
}

/// The place after the line end of the line that holds the byte `at`, and the line end to write there: what comes
/// new begins a line of its own.
pub(super) fn next_line(body: &str, at: usize) -> (usize, bool) {
    let rest = body.get(at..).unwrap_or_default();
    match rest.find('\n') {
        Some(length) => (at + length + 1, true),
        None => (body.len(), false),
    }
}

/// How the file ends its lines.
pub(super) fn line_end(body: &str) -> &'static str {
    match body.find('\n') {
        Some(at) if body.get(..at).is_some_and(|head| head.ends_with('\r')) => "\r\n",
        _ => "\n",
    }
}

/// As many spaces as stand before the byte `at` in its line, dashes counted.
pub(super) fn indent(body: &str, at: usize) -> String {
    let head = body.get(..at).unwrap_or_default();
    let line = head.rsplit('\n').next().unwrap_or_default();
    " ".repeat(line.chars().count())
}
