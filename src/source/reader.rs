//! The one reader of YAML: a visitor that keeps every place and every duplicate.

use super::tree::{Entry, Node, Plain, Scalar, Span, Value};
use crate::diagnostics::Fault;
use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_yaml::budget::BudgetBreach;
use serde_yaml::options::{DuplicateKeyPolicy, MergeKeyPolicy, NonFiniteFloatPolicy};
use serde_yaml::{Error, Location, Options, Spanned};
use std::fmt;

/// The first place of a file.
const START: Span = Span { line: 1, column: 1, start: 0, length: 0 };
/// How deep brackets and blocks may nest. A card needs six.
const DEEPEST: usize = 32;
/// How many nodes a file may repeat through aliases.
const MOST_REPEATED: usize = 10_000;

/// Reads `text` as one YAML document. `file` names it in the fault; an empty document is a fault.
///
/// # Errors
/// When it is not YAML, is empty, holds two documents, nests too deep or repeats too much through aliases.
pub fn read(file: &str, text: &str) -> Result<Node, Box<Fault>> {
    let body = text.strip_prefix('\u{feff}').unwrap_or(text);
    if let Some(fault) = lone_return(file, body) {
        return Err(Box::new(fault));
    }
    match serde_yaml::from_str_with_options::<Spanned<Raw>>(body, options()) {
        Ok(spanned) => Ok(node(spanned, body)).and_then(|root| not_empty(file, body, root)),
        Err(error) => Err(Box::new(fault(file, body, error.without_snippet()))),
    }
}

/// A carriage return without a line feed: YAML ends a line there, most editors do not, and places would be wrong.
fn lone_return(file: &str, text: &str) -> Option<Fault> {
    let (start, _) = text.match_indices('\r').find(|(at, _)| text.as_bytes().get(at + 1) != Some(&b'\n'))?;
    let head = text.get(..start).unwrap_or_default();
    let (line, begin) = (head.matches('\n').count() + 1, head.rfind('\n').map_or(0, |at| at + 1));
    let column = head.get(begin..).unwrap_or_default().chars().count() + 1;
    let span = Span { line, column, start, length: 1 };
    Some(
        Fault::new(file, text, span, "a line ends in a carriage return alone")
            .with_help("save it with ordinary line ends"),
    )
}

/// The bytes of a file as text.
///
/// # Errors
/// When they are not UTF-8; the fault stands at the first byte that is not.
pub fn text_of<'a>(file: &str, bytes: &'a [u8]) -> Result<&'a str, Box<Fault>> {
    std::str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let good = std::str::from_utf8(good).unwrap_or_default();
        let line = good.matches('\n').count() + 1;
        let start = good.rfind('\n').map_or(0, |at| at + 1);
        let column = good.get(start..).unwrap_or_default().chars().count() + 1;
        let span = Span { line, column, start: good.len(), length: 1 };
        Box::new(Fault::new(file, good, span, "this file is not UTF-8 text").with_help("save it as UTF-8"))
    })
}

fn options() -> Options {
    serde_yaml::options! {
        budget: serde_yaml::budget! {
            max_depth: DEEPEST,
            flow_nesting_limit: DEEPEST,
            max_documents: 1,
        },
        duplicate_keys: DuplicateKeyPolicy::PassThrough,
        merge_keys: MergeKeyPolicy::AsOrdinary,
        alias_limits: serde_yaml::alias_limits! { max_total_replayed_events: MOST_REPEATED },
        leading_zero_numbers_as_strings: true,
        underscored_numbers_as_strings: true,
        strict_booleans: true,
        reject_unsupported_tags: true,
        non_finite_float_policy: NonFiniteFloatPolicy::PassThrough,
        with_snippet: false,
    }
}

/// What the visitor sees, before places become spans.
enum Raw {
    Empty,
    Flag(bool),
    Number,
    Text(String),
    List(Vec<Spanned<Raw>>),
    Map(Vec<(Spanned<Raw>, Spanned<Raw>)>),
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a YAML value")
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Raw, E> {
        Ok(Raw::Flag(value))
    }

    fn visit_i64<E>(self, _: i64) -> Result<Raw, E> {
        Ok(Raw::Number)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Raw, E> {
        Ok(Raw::Number)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Raw, E> {
        Ok(Raw::Number)
    }

    fn visit_str<E>(self, text: &str) -> Result<Raw, E> {
        Ok(Raw::Text(text.to_owned()))
    }

    fn visit_string<E>(self, text: String) -> Result<Raw, E> {
        Ok(Raw::Text(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Raw, A::Error> {
        let mut nodes = Vec::new();
        while let Some(node) = list.next_element()? {
            nodes.push(node);
        }
        Ok(Raw::List(nodes))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Raw, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = map.next_entry()? {
            entries.push(entry);
        }
        Ok(Raw::Map(entries))
    }
}

/// Turns what the visitor saw into nodes; the text of numbers is taken from the file as it was typed.
fn node(spanned: Spanned<Raw>, text: &str) -> Node {
    let typed = || slice(text, spanned.defined);
    let value = match spanned.value {
        Raw::Empty => Value::Empty,
        Raw::Flag(flag) => Value::Scalar(Scalar { text: typed(), plain: Plain::Flag(flag) }),
        Raw::Number => Value::Scalar(Scalar { text: typed(), plain: Plain::Number }),
        Raw::Text(text) => Value::Scalar(Scalar { text, plain: Plain::Text }),
        Raw::List(nodes) => Value::List(nodes.into_iter().map(|n| node(n, text)).collect()),
        Raw::Map(entries) => Value::Map(
            entries.into_iter().map(|(key, value)| Entry { key: node(key, text), value: node(value, text) }).collect(),
        ),
    };
    Node { span: span(spanned.referenced, text), value }
}

fn slice(text: &str, location: Location) -> String {
    let at = span(location, text);
    text.get(at.start..at.start + at.length).unwrap_or_default().trim().to_owned()
}

fn span(location: Location, text: &str) -> Span {
    let size = |n: Option<u64>| n.and_then(|n| usize::try_from(n).ok());
    let start = size(location.span().byte_offset()).unwrap_or_else(|| offset(location, text)).min(text.len());
    let length = size(location.span().byte_len()).unwrap_or(0).min(text.len() - start);
    let whole = |n: u64| usize::try_from(n).unwrap_or(1).max(1);
    Span { line: whole(location.line()), column: whole(location.column()), start, length }
}

/// The byte at a line and column, for places that come without one.
fn offset(location: Location, text: &str) -> usize {
    let whole = |n: u64| usize::try_from(n).unwrap_or(1).saturating_sub(1);
    let before: usize = text.split_inclusive('\n').take(whole(location.line())).map(str::len).sum();
    let line = text.get(before..).unwrap_or_default();
    before + line.chars().take(whole(location.column())).map(char::len_utf8).sum::<usize>()
}

fn not_empty(file: &str, text: &str, root: Node) -> Result<Node, Box<Fault>> {
    if root.value == Value::Empty { Err(Box::new(empty(file, text, START))) } else { Ok(root) }
}

fn empty(file: &str, text: &str, span: Span) -> Fault {
    Fault::new(file, text, span, "this file is empty").with_help("`wirelore new` writes a file to start from")
}

/// A reader's error as a fault in our words.
fn fault(file: &str, text: &str, error: &Error) -> Fault {
    // For what comes through an alias this is where the alias stands.
    let place = error.locations().and_then(serde_yaml::Locations::primary_location).or_else(|| error.location());
    let at = place.map_or_else(Span::default, |location| span(location, text));
    let at = Span { line: at.line.max(1), column: at.column.max(1), ..at };
    said(file, text, at, error)
}

fn said(file: &str, text: &str, at: Span, error: &Error) -> Fault {
    match error {
        Error::Eof { .. } => empty(file, text, START),
        Error::MultipleDocuments { .. } | Error::Budget { breach: BudgetBreach::Documents { .. }, .. } => {
            Fault::new(file, text, at, "this file holds two documents").with_help("keep one document in a file")
        }
        Error::Budget { breach: BudgetBreach::Depth { .. }, .. } => too_deep(file, text, at),
        Error::Budget { .. }
        | Error::AliasReplayLimitExceeded { .. }
        | Error::AliasExpansionLimitExceeded { .. }
        | Error::AliasReplayStackDepthExceeded { .. }
        | Error::AliasReplayCounterOverflow { .. }
        | Error::RecursiveReferencesRequireWeakTypes { .. } => {
            Fault::new(file, text, at, "this file repeats too much through aliases (`&` and `*`)")
                .with_help("write each value out where it belongs")
        }
        Error::AliasError { error, .. } => said(file, text, at, error),
        Error::UnsupportedTag { .. } | Error::TaggedStructFieldName { .. } => {
            Fault::new(file, text, at, "tags (`!…`) have no meaning here").with_help("write the value alone")
        }
        other => other_fault(file, text, at, other),
    }
}

fn too_deep(file: &str, text: &str, at: Span) -> Fault {
    Fault::new(file, text, at, "brackets or blocks nest too deep here")
        .with_help(format!("nest no deeper than {DEEPEST} levels"))
}

fn other_fault(file: &str, text: &str, at: Span, error: &Error) -> Fault {
    let said = error.to_string();
    if said.contains("nesting") || said.contains("recursion limit") {
        return too_deep(file, text, at);
    }
    let said = said.split(" at line ").next().unwrap_or(&said).trim();
    Fault::new(file, text, at, format!("this is not YAML: {said}"))
        .with_help("put text with `:`, `#`, `[`, `{`, `@` or a quote in it in double quotes")
}
