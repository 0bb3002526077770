//! Puts a value at a key: in the place of the one that is there, or beside its siblings.

use super::ends::{end, end_of_entry, indent, is_alias, is_bracketed, line_end, next_line};
use super::place::{Place, Step, at};
use super::quote::{Style, scalar, usual};
use super::value::Wanted;
use super::{Refusal, list, proof, refused};
use crate::check::{Block, Shape};
use crate::source::{self, Entry, Node, Value};
use std::ops::Range;

/// What stands in a range, and what takes its place.
pub(super) type Splice = (Range<usize>, String);

/// The text and the tree with `wanted` at `key` of a place; `None` when it is there already.
pub(super) fn put(
    file: &str,
    body: &str,
    root: &Node,
    place: &Place,
    key: &str,
    wanted: &Wanted,
) -> Result<Option<(String, Node)>, Refusal> {
    let (path, key, wanted) = within(root, place, key, wanted);
    let Some(block) = at(root, path) else { return refused("this card has no such place", "name another") };
    let after = siblings(block, table(root, place, path), &key);
    let splices = match block.entry(&key) {
        Some(entry) if proof::is(file, &entry.value, &wanted) => return Ok(None),
        Some(entry) => replaced(body, entry, &wanted)?,
        None => vec![added(body, block, after, &format!("{}: {}", name(&key), wanted.yaml()))],
    };
    let text = spliced(body, splices);
    let value = source::read(file, &wanted.yaml()).map_err(Refusal::Fault)?;
    let tree = proof::holds(file, root, &text, (path, &key), (&value, after))?;
    Ok(Some((text, tree)))
}

/// A name that the writer chose, or a key.
fn name(key: &str) -> String {
    scalar(key, Shape::Name, usual("", Shape::Name))
}

/// The innermost block that is there, and what is put into it: a block that is not there yet comes whole.
fn within<'p>(root: &Node, place: &'p Place, key: &str, wanted: &Wanted) -> (&'p [Step], String, Wanted) {
    let there = |path: &&[Step]| at(root, path).is_some_and(|node| node.entries().is_some());
    let lengths = (0..=place.path.len()).rev();
    let path = lengths.map(|length| place.path.get(..length).unwrap_or_default()).find(there).unwrap_or_default();
    let missing = place.path.get(path.len()..).unwrap_or_default();
    let mut key = key.to_owned();
    let mut wanted = wanted.clone();
    for step in missing.iter().rev() {
        wanted = Wanted::Blocks(format!("{{ {}: {} }}", name(&key), wanted.yaml()));
        key = match step {
            Step::Key(name) => (*name).to_owned(),
            Step::Name(name) => name.clone(),
            Step::Row(_) => String::new(),
        };
    }
    (path, key, wanted)
}

/// The table of the block at `path`; none where the writer chooses the names.
fn table(root: &Node, place: &Place, path: &[Step]) -> Option<&'static Block> {
    if place.path == path {
        return Some(place.block);
    }
    let same = |other: &Place| (other.path == path).then_some(other.block);
    super::place::places(root, place.whole()).iter().find_map(same)
}

/// How many keys of a block come before a new one: up to the last of those that the table has before it.
fn siblings(block: &Node, table: Option<&Block>, key: &str) -> usize {
    let entries = block.entries().unwrap_or_default();
    let Some(table) = table else { return entries.len() };
    let order = |name: &str| table.keys.iter().position(|key| key.name == name);
    let own = order(key);
    let before = |entry: &Entry| entry.key.text().and_then(order) < own;
    entries.iter().rposition(before).map_or(0, |at| at + 1)
}

/// A key with its value after so many others of its block.
fn added(body: &str, block: &Node, after: usize, line: &str) -> Splice {
    let entries = block.entries().unwrap_or_default();
    let before = after.checked_sub(1).and_then(|at| entries.get(at));
    match (is_bracketed(body, block), before, entries.first()) {
        (true, Some(before), _) => insert(end_of_entry(body, before), format!(", {line}")),
        (true, None, Some(_)) => insert(block.span.start + 1, format!(" {line},")),
        (true, None, None) => insert(block.span.start + 1, format!(" {line} ")),
        (false, None, Some(first)) => {
            let start = first.key.span.start;
            insert(start, format!("{line}{}{}", line_end(body), indent(body, start)))
        }
        (false, Some(before), first) => {
            let margin = first.map(|first| indent(body, first.key.span.start)).unwrap_or_default();
            own_line(body, end_of_entry(body, before), &format!("{margin}{line}"))
        }
        (false, None, None) => insert(block.span.start, line.to_owned()),
    }
}

/// A line of its own after the line that holds the byte `at`.
pub(super) fn own_line(body: &str, at: usize, line: &str) -> Splice {
    match next_line(body, at) {
        (next, true) => insert(next, format!("{line}{}", line_end(body))),
        (last, false) => insert(last, format!("{}{line}", line_end(body))),
    }
}

pub(super) fn insert(at: usize, text: String) -> Splice {
    (at..at, text)
}

/// What takes the place of the value of a key that is there.
fn replaced(body: &str, entry: &Entry, wanted: &Wanted) -> Result<Vec<Splice>, Refusal> {
    let node = &entry.value;
    let written = body.get(node.span.start..).unwrap_or_default();
    if is_alias(body, node) {
        return Ok(vec![(node.span.start..end(body, node), wanted.yaml())]);
    }
    match (&node.value, wanted) {
        (Value::Empty, _) => Ok(vec![filled(body, entry, wanted)]),
        (Value::Scalar(_), Wanted::List(items, shape)) => {
            Ok(vec![(region(body, entry), listed(node, written, items, *shape))])
        }
        (Value::Scalar(_), _) => Ok(vec![(region(body, entry), wanted.yaml_like(Style::of(written)))]),
        (Value::List(nodes), Wanted::List(items, shape)) => list::list(body, node, nodes, items, *shape),
        (Value::List(nodes), Wanted::One(..))
            if is_bracketed(body, node) && nodes.iter().all(|node| node.text().is_some()) =>
        {
            Ok(vec![(region(body, entry), wanted.yaml())])
        }
        _ => refused(
            format!("`{}` holds more than one fact", entry.key.text().unwrap_or_default()),
            "set them one by one: each has a place of its own, `siren.triggers.strobe` for example",
        ),
    }
}

/// A value where there was none: `key:` or `key: ~`.
fn filled(body: &str, entry: &Entry, wanted: &Wanted) -> Splice {
    if entry.value.span.length > 0 {
        return (entry.value.span.start..end(body, &entry.value), wanted.yaml());
    }
    let after = entry.key.span.start + entry.key.span.length;
    let colon = body.get(after..).and_then(|rest| rest.find(':')).map_or(after, |at| after + at + 1);
    insert(colon, format!(" {}", wanted.yaml()))
}

/// Where a value stands, the sign of a block text (`|`, `>`) counted in.
fn region(body: &str, entry: &Entry) -> Range<usize> {
    let range = entry.value.span.start..end(body, &entry.value);
    let after = entry.key.span.start + entry.key.span.length;
    let between = body.get(after..range.start).unwrap_or_default();
    match between.find(['|', '>']) {
        Some(sign) if between.contains('\n') => after + sign..range.end,
        _ => range,
    }
}

/// A list in the place of a single value; the value itself stays as it was written when the list has it.
fn listed(node: &Node, written: &str, items: &[String], shape: Shape) -> String {
    let as_written = written.get(..node.span.length).unwrap_or_default();
    let item = |item: &String| {
        if node.text() == Some(item) { as_written.to_owned() } else { scalar(item, shape, usual(item, shape)) }
    };
    format!("[{}]", items.iter().map(item).collect::<Vec<_>>().join(", "))
}

/// The text with every splice done, the last one first.
pub(super) fn spliced(body: &str, mut splices: Vec<Splice>) -> String {
    splices.sort_by_key(|(range, _)| range.start);
    let mut text = body.to_owned();
    for (range, new) in splices.into_iter().rev() {
        if text.get(range.clone()).is_some() {
            text.replace_range(range, &new);
        }
    }
    text
}
