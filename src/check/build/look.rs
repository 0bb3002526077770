//! Looks values up in a block. What the table of keys refuses reads as not given.

use super::super::keys::words;
use super::super::parse;
use crate::model::Fact;
use crate::source::{Node, Plain, Value};
use crate::units::{Quantity, Window};
use jiff::civil::Date;

/// The text of a key; `none` and empty texts read as not given.
pub(crate) fn text(block: &Node, key: &str) -> Option<String> {
    own_text(block.get(key)?).map(|text| text.trim_end_matches('\n')).filter(|text| *text != "none").map(str::to_owned)
}

/// The text of a value that is not empty and not `true` or `false`.
pub(crate) fn own_text(node: &Node) -> Option<&str> {
    match &node.value {
        Value::Scalar(scalar) if !matches!(scalar.plain, Plain::Flag(_)) && !scalar.text.trim().is_empty() => {
            Some(&scalar.text)
        }
        _ => None,
    }
}

/// A key that must be there: its text, empty when the table has already refused it.
pub(crate) fn name(block: &Node, key: &str) -> String {
    text(block, key).unwrap_or_default()
}

/// The texts of a list, or of a single value.
pub(crate) fn texts(block: &Node, key: &str) -> Vec<String> {
    many(block, key).into_iter().filter_map(own_text).map(str::to_owned).collect()
}

/// The nodes of a list, or a single value as a list of one.
pub(crate) fn many<'n>(block: &'n Node, key: &str) -> Vec<&'n Node> {
    match block.get(key) {
        None => Vec::new(),
        Some(node) => match &node.value {
            Value::List(nodes) => nodes.iter().collect(),
            _ => vec![node],
        },
    }
}

/// The blocks of a list.
pub(crate) fn rows<'n>(block: &'n Node, key: &str) -> impl Iterator<Item = &'n Node> {
    let nodes = block.get(key).and_then(Node::list).unwrap_or_default();
    nodes.iter().filter(|node| node.entries().is_some())
}

/// A quantity.
pub(crate) fn quantity<Q: Quantity>(block: &Node, key: &str) -> Option<Q> {
    Q::read(block.get(key)?.text()?).ok()
}

/// A window of two quantities.
pub(crate) fn window<Q: Quantity>(block: &Node, key: &str) -> Option<Window<Q>> {
    let [low, high] = block.get(key)?.list()? else { return None };
    Some(Window { low: Q::read(low.text()?).ok()?, high: Q::read(high.text()?).ok()? })
}

/// The value that a word stands for.
pub(crate) fn word<T: Copy>(block: &Node, key: &str, table: &[(&'static str, T)]) -> Option<T> {
    words::value(table, block.get(key)?.text()?)
}

/// `true` or `false`.
pub(crate) fn flag(block: &Node, key: &str) -> Option<bool> {
    match &block.get(key)?.value {
        Value::Scalar(scalar) => match scalar.plain {
            Plain::Flag(flag) => Some(flag),
            _ => None,
        },
        _ => None,
    }
}

/// A number without a unit.
pub(crate) fn factor(block: &Node, key: &str) -> Option<f64> {
    parse::factor(block.get(key)?)
}

/// A day.
pub(crate) fn date(block: &Node, key: &str) -> Option<Date> {
    parse::date(&text(block, key)?)
}

/// A key that may say `none`.
pub(crate) fn fact<T>(block: &Node, key: &str, read: impl FnOnce(&Node) -> Option<T>) -> Fact<T> {
    match block.get(key) {
        None => Fact::NotKnown,
        Some(node) if node.text() == Some("none") => Fact::Absent,
        Some(node) => read(node).map_or(Fact::NotKnown, Fact::Is),
    }
}
