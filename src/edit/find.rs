//! Which place and which key of a card a wish means.

use super::place::{CARD, Place, at, named, places};
use super::{Refusal, refused};
use crate::check::{Block, Key};
use crate::source::Node;
use crate::wording::{all_nearest, listed};

/// The most names that a refusal lists.
const LISTED: usize = 24;

/// The place that a wish names: by its mark, by its full name, or `card.NAME`.
pub(super) fn place(root: &Node, table: &'static Block, wish: &str) -> Result<Place, Refusal> {
    let all = places(root, table);
    let whole = wish.strip_prefix("card.").unwrap_or(wish);
    let is_marked = |place: &&Place| place.mark.as_deref() == Some(wish);
    let mut meant: Vec<&Place> = all.iter().filter(is_marked).collect();
    meant.extend(all.iter().filter(|place| place.name == whole && place.mark.as_deref() != Some(wish)));
    match meant.as_slice() {
        [one] => Ok((*one).clone()),
        [] => named(table, whole).map_or_else(|| unknown(&all, wish), Ok),
        several => ambiguous(several, wish),
    }
}

fn ambiguous<T>(several: &[&Place], wish: &str) -> Result<T, Refusal> {
    let full = |place: &&Place| {
        let prefix = if place.name == wish { "card." } else { "" };
        format!("`{prefix}{}`", place.name)
    };
    let names: Vec<String> = several.iter().map(full).collect();
    refused(format!("`{wish}` is {} things on this card", several.len()), format!("write {}", names.join(" or ")))
}

fn unknown<T>(all: &[Place], wish: &str) -> Result<T, Refusal> {
    let marks = all.iter().filter_map(|place| place.mark.as_deref());
    let names: Vec<&str> = marks.chain(all.iter().map(|place| place.name.as_str())).collect();
    let near = all_nearest(wish, names.iter().copied());
    let help = match near.as_slice() {
        [] => format!("name a terminal, fuse or link by its mark, or one of {}", outermost(all)),
        near => format!("did you mean {}?", near.join(" or ")),
    };
    refused(format!("this card has no mark or place `{wish}`"), help)
}

/// The places that are not rows, as far as they go on a line.
fn outermost(all: &[Place]) -> String {
    let names = all.iter().filter(|place| place.path.len() == 1).map(|place| place.name.as_str());
    let mut names: Vec<&str> = std::iter::once(CARD).chain(names).collect();
    names.truncate(LISTED);
    listed(&names)
}

/// The key of a place that a wish names.
pub(super) fn key(root: &Node, table: &'static Block, place: &Place, name: &str) -> Result<&'static Key, Refusal> {
    if let Some(key) = place.block.key(name) {
        return Ok(key);
    }
    let names: Vec<&str> = place.block.keys.iter().map(|key| key.name).collect();
    let near = all_nearest(name, names.iter().copied());
    let elsewhere = elsewhere(root, table, place, name);
    let help = match (near.as_slice(), elsewhere.is_empty()) {
        ([], true) => format!("its keys are {}", names.join(", ")),
        ([], false) => format!("`{name}` is a key of {elsewhere}"),
        (near, _) => format!("did you mean {}?", near.join(" or ")),
    };
    refused(format!("{} has no key `{name}`", place.block.name), help)
}

/// The places that have such a key: those that speak of this mark, else any.
fn elsewhere(root: &Node, table: &'static Block, place: &Place, name: &str) -> String {
    let all = places(root, table);
    let having: Vec<&Place> = all.iter().filter(|other| other.block.key(name).is_some()).collect();
    let speaks = |other: &&&Place| {
        let node = at(root, &other.path).filter(|_| other.there);
        place.mark.as_deref().zip(node).is_some_and(|(mark, node)| names_mark(node, mark))
    };
    let speaking: Vec<&Place> = having.iter().filter(speaks).copied().collect();
    let shown = if speaking.is_empty() { having } else { speaking };
    let names: Vec<String> = shown.iter().take(4).map(|place| format!("`{}`", place.name)).collect();
    listed(&names)
}

/// Whether a block's own values name a mark.
fn names_mark(node: &Node, mark: &str) -> bool {
    let is = |node: &Node| node.text() == Some(mark);
    let names = |node: &Node| is(node) || node.list().is_some_and(|nodes| nodes.iter().any(is));
    node.entries().is_some_and(|entries| entries.iter().any(|entry| names(&entry.value)))
}
