//! Adds to a fact where it is from. What it was known from before stays: the other keys of the row rest on it.

use super::place::{Place, at};
use super::value::Wanted;
use super::{Refusal, refused};
use crate::check::Shape;
use crate::source::{Node, Value};
use crate::wording::all_nearest;

/// Refuses a cite whose first word is none of the card's sources.
pub(super) fn known(root: &Node, cite: &str) -> Result<(), Refusal> {
    let Some(word) = cite.split_whitespace().next() else {
        return refused("the cite is empty", "write the source and the place in it: `--cite \"manual p.6\"`");
    };
    let entries = root.get("sources").and_then(Node::entries).unwrap_or_default();
    let sources: Vec<&str> = entries.iter().filter_map(|entry| entry.key.text()).collect();
    if sources.contains(&word) {
        return Ok(());
    }
    let known = match (all_nearest(word, sources.iter().copied()).as_slice(), sources.as_slice()) {
        ([], []) => String::new(),
        ([], all) => format!("its sources are {}; ", all.join(", ")),
        (near, _) => format!("did you mean {}? ", near.join(" or ")),
    };
    let name: String = word.chars().take_while(|c| c.is_alphanumeric() || matches!(c, '-' | '_')).collect();
    if sources.contains(&name.as_str()) {
        let help = format!("write the source, a space, then the place in it: `--cite \"{name} …\"`");
        return refused(format!("`{word}` is no source of this card, `{name}` is"), help);
    }
    let name = if name.is_empty() { "NAME" } else { &name };
    let fresh = format!("for a new source, first set `sources.{name} how=measured title=\"…\"` on this card");
    refused(format!("`{word}` is no source of this card"), format!("{known}{fresh}"))
}

/// The cites that a place has, and what they become.
pub(super) fn added(root: &Node, place: &Place, cite: &str) -> (Vec<String>, Wanted) {
    let cite = cite.trim().to_owned();
    let there = at(root, &place.path).and_then(|node| node.get("cite"));
    let before: Vec<String> = match there.map(|node| &node.value) {
        Some(Value::List(nodes)) => nodes.iter().filter_map(Node::text).map(str::to_owned).collect(),
        Some(Value::Scalar(scalar)) => vec![scalar.text.clone()],
        _ => Vec::new(),
    };
    let stay: Vec<String> = before.iter().filter(|one| **one != cite).cloned().collect();
    let wanted = match (before.as_slice(), before.contains(&cite)) {
        ([], _) => Wanted::One(cite, Shape::Text),
        ([one], true) if there.is_some_and(|node| node.text().is_some()) => Wanted::One(one.clone(), Shape::Text),
        (all, true) => Wanted::List(all.to_vec(), Shape::Text),
        (all, false) => Wanted::List(all.iter().cloned().chain([cite]).collect(), Shape::Text),
    };
    (stay, wanted)
}

/// The keys of a place without a cite for which a new one would speak besides those that are set: all but its name.
pub(super) fn others(root: &Node, citing: &Place, of: &Place, set: &[(String, String)]) -> Vec<String> {
    let Some(node) = at(root, &citing.path).filter(|node| node.get("cite").is_none()) else { return Vec::new() };
    let is_set = |name: &str| citing.path == of.path && set.iter().any(|(key, _)| key == name);
    let is_name = |name: &str| citing.block.naming().is_some_and(|key| key.name == name);
    let names = node.entries().unwrap_or_default().iter().filter_map(|entry| entry.key.text());
    names.filter(|name| !is_set(name) && !is_name(name)).map(str::to_owned).collect()
}
