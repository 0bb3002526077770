//! The proof that a change did what was asked and nothing else.

use super::place::Step;
use super::value::Wanted;
use super::{Refusal, refused};
use crate::source::{self, Entry, Node, Plain, Scalar, Value};

/// Whether a value already is what is wanted.
pub(super) fn is(file: &str, node: &Node, wanted: &Wanted) -> bool {
    source::read(file, &wanted.yaml()).is_ok_and(|other| same(node, &other))
}

/// Whether two trees say the same, wherever it stands.
fn same(a: &Node, b: &Node) -> bool {
    match (&a.value, &b.value) {
        (Value::List(a), Value::List(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)),
        (Value::Map(a), Value::Map(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(&a.key, &b.key) && same(&a.value, &b.value))
        }
        (a, b) => a == b,
    }
}

/// Whether two trees say the same but for one key of theirs.
pub(super) fn same_but(a: &Node, b: &Node, key: &str) -> bool {
    let others = |node: &Node| -> Vec<Entry> {
        let entries = node.entries().unwrap_or_default().iter();
        entries.filter(|entry| entry.key.text() != Some(key)).cloned().collect()
    };
    let (a, b) = (others(a), others(b));
    a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| same(&a.key, &b.key) && same(&a.value, &b.value))
}

/// The tree of a changed text. Refuses a text whose tree is not the old tree with `value` at `key` of the block at `path`; a key that was not
/// there has come after `after` others.
pub(super) fn holds(
    file: &str,
    old: &Node,
    text: &str,
    (path, key): (&[Step], &str),
    (value, after): (&Node, usize),
) -> Result<Node, Refusal> {
    let mut expected = old.clone();
    let set = change(&mut expected, path, key, value, after);
    match source::read(file, text) {
        Ok(new) if set && same(&expected, &new) => Ok(new),
        _ => refused(
            format!("`{key}` can't be changed here without touching something else"),
            "change it in the file: it is written in a way (an anchor, an alias, a `?`) that others depend on",
        ),
    }
}

/// Puts a value into a tree.
fn change(node: &mut Node, path: &[Step], key: &str, value: &Node, after: usize) -> bool {
    let inner = match (path.split_first(), &mut node.value) {
        (None, Value::Map(entries)) => {
            put(entries, key, value, after);
            return true;
        }
        (Some((Step::Key(name), rest)), Value::Map(entries)) => {
            first(entries, name).map(|inner| change(inner, rest, key, value, after))
        }
        (Some((Step::Name(name), rest)), Value::Map(entries)) => {
            first(entries, name).map(|inner| change(inner, rest, key, value, after))
        }
        (Some((Step::Row(at), rest)), Value::List(nodes)) => {
            nodes.get_mut(*at).map(|inner| change(inner, rest, key, value, after))
        }
        _ => None,
    };
    inner.unwrap_or(false)
}

fn first<'n>(entries: &'n mut [Entry], name: &str) -> Option<&'n mut Node> {
    entries.iter_mut().find(|entry| entry.key.text() == Some(name)).map(|entry| &mut entry.value)
}

fn put(entries: &mut Vec<Entry>, key: &str, value: &Node, after: usize) {
    if let Some(node) = first(entries, key) {
        *node = kept(node, value);
        return;
    }
    let text = Scalar { text: key.to_owned(), plain: Plain::Text };
    let key = Node { span: value.span, value: Value::Scalar(text) };
    entries.insert(after.min(entries.len()), Entry { key, value: value.clone() });
}

/// A value, with those of its entries that say what they said before as they were.
fn kept(old: &Node, new: &Node) -> Node {
    let before: &[Node] = old.list().unwrap_or(std::slice::from_ref(old));
    let Value::List(nodes) = &new.value else { return new.clone() };
    let says = |node: &Node| before.iter().find(|earlier| earlier.text().is_some() && earlier.text() == node.text());
    let nodes = nodes.iter().map(|node| says(node).unwrap_or(node).clone()).collect();
    Node { span: new.span, value: Value::List(nodes) }
}
