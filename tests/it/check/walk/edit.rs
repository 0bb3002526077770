//! Edits to a file's text by the places of its nodes.

use wirelore::diagnostics::Span;
use wirelore::source::{Entry, Node, Value};
use wirelore::units::{
    AmpHours, Amps, Celsius, Hours, Metres, Millimetres, Ohms, Percent, Quantity, SquareMillimetres, Volts,
};

/// A line and a column.
pub(super) type Spot = (usize, usize);

pub(super) fn spot(span: Span) -> Spot {
    (span.line, span.column)
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
    fn spliced(self, from: usize, to: usize, put: &str) -> String {
        format!("{}{put}{}", &self.0[..from], &self.0[to..])
    }

    /// The text with another value.
    pub(super) fn with(self, span: Span, put: &str) -> String {
        self.spliced(span.start, span.start + span.length, put)
    }

    /// The text with an `x` at the end of a key.
    pub(super) fn misspelt(self, key: Span) -> String {
        let end = key.start + key.length;
        let end = if self.0[..end].ends_with(['"', '\'']) { end - 1 } else { end };
        self.spliced(end, end, "x")
    }

    /// The text with a key of the same name before this one, and where this one is now.
    pub(super) fn doubled(self, map: &Node, entry: &Entry) -> (String, Spot) {
        let span = entry.key.span;
        let key = &self.0[span.start..span.start + span.length];
        if is_flow(map) {
            let put = format!("{key}: 0, ");
            let column = span.column + put.chars().count();
            return (self.spliced(span.start, span.start, &put), (span.line, column));
        }
        let put = format!("{key}: 0\n{}", " ".repeat(span.column - 1));
        (self.spliced(span.start, span.start, &put), (span.line + 1, span.column))
    }

    /// The text without an entry.
    pub(super) fn dropped(self, map: &Node, at: usize) -> String {
        let entries = map.entries().unwrap_or_default();
        let from = entries[at].key.span.start;
        let to = entries.get(at + 1).map_or_else(|| self.end(map, &entries[at]), |next| next.key.span.start);
        let alone = entries.len() == 1 && !is_flow(map);
        let last = at > 0 && at + 1 == entries.len() && !is_flow(map);
        let from = if last { self.line_start(from) } else { from };
        self.spliced(from, to, if alone { "{}\n" } else { "" })
    }

    /// Where a block begins once an entry is dropped.
    pub(super) fn place_without(self, map: &Node, at: usize) -> Spot {
        let entries = map.entries().unwrap_or_default();
        // The next key moves to the place of a first key that is dropped.
        let _ = at;
        if is_flow(map) { spot(map.span) } else { spot(entries[0].key.span) }
    }

    /// The text with nothing after a key.
    pub(super) fn emptied(self, map: &Node, at: usize) -> String {
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
        self.spliced(colon, to.max(colon), put)
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
                (Some(open), c) if c == open && before != '\\' => quote = None,
                (Some(_), _) => {}
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
