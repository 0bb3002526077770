//! Edits to a file's text by the places of its nodes.

use wirelore::diagnostics::Span;
use wirelore::source::{Entry, Node, Value};
use wirelore::units::{
    AmpHours, Amps, Celsius, Hours, Metres, Millimetres, Ohms, Percent, Quantity, SquareMillimetres, Volts,
};

/// A line and a column.
pub(super) type Spot = (usize, usize);

/// A piece of the text that is replaced, and the byte of the old text at whose place a fault is due.
pub(super) struct Edit {
    from: usize,
    to: usize,
    put: String,
    due: usize,
}

/// Edits that can be made at once: none touches what another needs.
pub(super) fn batches<T>(edits: &[(Edit, T)]) -> Vec<&[(Edit, T)]> {
    let touches = |a: &Edit, b: &Edit| b.from < a.to || b.due < a.to || b.from.max(b.due) <= a.from.max(a.due);
    edits.chunk_by(|(a, _), (b, _)| !touches(a, b)).collect()
}

/// The text with all edits made, and for each the place at which its fault is due.
pub(super) fn make<'e>(text: &str, edits: impl Iterator<Item = &'e Edit>) -> (String, Vec<Spot>) {
    let (mut out, mut done, mut places) = (String::new(), 0, Vec::new());
    for edit in edits {
        out.push_str(&text[done..edit.from]);
        // A place before the edit stands where it stood; a place at its end comes after what is put in.
        let due = if edit.due < edit.from || (edit.due == edit.from && edit.to > edit.from) {
            out.len() - (edit.from - edit.due)
        } else {
            out.len() + edit.put.len()
        };
        out.push_str(&edit.put);
        done = edit.to;
        places.push(due);
    }
    out.push_str(&text[done..]);
    let spots = places.into_iter().map(|at| spot_of(&out, at)).collect();
    (out, spots)
}

fn spot_of(text: &str, at: usize) -> Spot {
    let head = &text[..at];
    let line = head.rfind('\n').map_or(0, |end| end + 1);
    (head.matches('\n').count() + 1, head[line..].chars().count() + 1)
}

/// Another value.
pub(super) fn with(span: Span, put: &str) -> Edit {
    Edit { from: span.start, to: span.start + span.length, put: put.to_owned(), due: span.start }
}

/// Whether a value as typed is a quantity.
pub(super) fn is_quantity(typed: &str) -> bool {
    // Without a space it may be a mark: `1A`.
    typed.contains(' ') && reads(typed)
}

fn reads(typed: &str) -> bool {
    Volts::read(typed).is_ok()
        || Amps::read(typed).is_ok()
        || AmpHours::read(typed).is_ok()
        || Metres::read(typed).is_ok()
        || Millimetres::read(typed).is_ok()
        || SquareMillimetres::read(typed).is_ok()
        || Hours::read(typed).is_ok()
        || Celsius::read(typed).is_ok()
        || Percent::read(typed).is_ok()
        || Ohms::read(typed).is_ok()
}

/// A quantity of another kind than `typed`.
pub(super) fn other_unit(typed: &str) -> &'static str {
    if Volts::read(typed).is_ok() { "5 h" } else { "5 V" }
}

/// A file's text.
#[derive(Clone, Copy)]
pub(super) struct Text<'a>(pub(super) &'a str);

impl Text<'_> {
    /// An `x` at the end of a key.
    pub(super) fn misspelt(self, key: Span) -> Edit {
        let end = key.start + key.length;
        let end = if self.0[..end].ends_with(['"', '\'']) { end - 1 } else { end };
        Edit { from: end, to: end, put: "x".into(), due: key.start }
    }

    /// A key of the same name before this one: the fault is due at this one.
    pub(super) fn doubled(self, map: &Node, entry: &Entry) -> Edit {
        let span = entry.key.span;
        let key = &self.0[span.start..span.start + span.length];
        let between = if is_flow(map) { ", ".to_owned() } else { format!("\n{}", " ".repeat(span.column - 1)) };
        Edit { from: span.start, to: span.start, put: format!("{key}: 0{between}"), due: span.start }
    }

    /// The entry gone: the fault is due where its block begins.
    pub(super) fn dropped(self, map: &Node, at: usize) -> Edit {
        let entries = map.entries().unwrap_or_default();
        let from = entries[at].key.span.start;
        let to = entries.get(at + 1).map_or_else(|| self.end(map, &entries[at]), |next| next.key.span.start);
        let alone = entries.len() == 1 && !is_flow(map);
        let last = at > 0 && at + 1 == entries.len() && !is_flow(map);
        let from = if last { self.line_start(from) } else { from };
        // The next key moves to the place of a first key that is dropped.
        let due = if is_flow(map) { map.span.start } else { entries[0].key.span.start };
        Edit { from, to, put: if alone { "{}\n".into() } else { String::new() }, due }
    }

    /// Nothing after a key.
    pub(super) fn emptied(self, map: &Node, at: usize) -> Edit {
        let entries = map.entries().unwrap_or_default();
        let entry = &entries[at];
        let after = entry.key.span.start + entry.key.span.length;
        let colon = after + self.0[after..].find(':').expect("a colon") + 1;
        let to = match &entry.value.value {
            Value::Scalar(_) | Value::Empty => entry.value.span.start + entry.value.span.length,
            _ if is_flow(&entry.value) => self.bracket_end(entry.value.span.start),
            _ => entries.get(at + 1).map_or_else(|| self.end(map, entry), |next| self.line_start(next.key.span.start)),
        };
        let put = if is_flow(map) || self.0[to..].starts_with('\n') { "" } else { "\n" };
        Edit { from: colon, to: to.max(colon), put: put.into(), due: entry.key.span.start }
    }

    fn line_start(self, at: usize) -> usize {
        self.0[..at].rfind('\n').map_or(0, |end| end + 1)
    }

    /// Where the last entry of a map ends: at its closing bracket, or before the next line that is not deeper.
    fn end(self, map: &Node, entry: &Entry) -> usize {
        if is_flow(map) {
            return self.bracket_end(map.span.start) - 1;
        }
        let indent = entry.key.span.column - 1;
        let mut at = entry.key.span.start;
        for line in self.0[at..].split_inclusive('\n') {
            let first = at == entry.key.span.start;
            let deep = line.len() - line.trim_start().len();
            let listed = deep == indent && line.trim_start().starts_with("- ") && entry.value.list().is_some();
            if !first && !line.trim().is_empty() && deep <= indent && !listed {
                break;
            }
            at += line.len();
        }
        at
    }

    /// The byte after the bracket that closes the one at `start`.
    fn bracket_end(self, start: usize) -> usize {
        let mut depth = 0;
        let mut quote = None;
        let mut before = ' ';
        for (at, c) in self.0[start..].char_indices() {
            match (quote, c) {
                (Some(open), c) => quote = if c == open && before != '\\' { None } else { Some(open) },
                // An apostrophe within a plain word opens nothing.
                (None, '"' | '\'') if !before.is_alphanumeric() => quote = Some(c),
                (None, '[' | '{') => depth += 1,
                (None, ']' | '}') => {
                    depth -= 1;
                    if depth == 0 {
                        return start + at + 1;
                    }
                }
                _ => {}
            }
            before = c;
        }
        panic!("a bracket without its end");
    }
}

fn is_flow(node: &Node) -> bool {
    node.span.length > 0
}
