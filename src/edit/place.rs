//! The places on a card that hold facts, by name: `AUX+`, `siren`, `power.battery`, `zones.1`, `siren.triggers.strobe`.

use crate::check::{Block, Key, Shape};
use crate::source::Node;

/// One step down a tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// To the value of a key of the table.
    Key(&'static str),
    /// To the value of a name that the writer chose.
    Name(String),
    /// To a row of a list.
    Row(usize),
}

/// A block of keys on a card.
#[derive(Debug, Clone)]
pub(super) struct Place {
    /// What it is called in full.
    pub(super) name: String,
    /// The mark printed beside it, for a terminal, a fuse or a link.
    pub(super) mark: Option<String>,
    /// Its keys.
    pub(super) block: &'static Block,
    /// The way from the card's root.
    pub(super) path: Vec<Step>,
    /// Whether the card has it.
    pub(super) there: bool,
    /// The blocks around it, the card first.
    above: Vec<(Vec<Step>, &'static Block)>,
}

impl Place {
    /// A block that is there, by its way alone.
    pub(super) fn at(path: &[Step], block: &'static Block) -> Self {
        Self { name: String::new(), mark: None, block, path: path.to_vec(), there: true, above: Vec::new() }
    }

    /// The table of the whole card.
    pub(super) fn whole(&self) -> &'static Block {
        self.above.first().map_or(self.block, |(_, table)| table)
    }

    /// The place whose `cite` tells where a fact here is from: itself, or the nearest around it that takes one.
    pub(super) fn citing(&self) -> Option<Self> {
        if self.path.first() == Some(&Step::Key("sources")) {
            return None;
        }
        if self.block.key("cite").is_some() {
            return Some(self.clone());
        }
        let (path, block) = self.above.iter().rev().find(|(_, block)| block.key("cite").is_some())?;
        Some(Self { path: path.clone(), block, ..self.clone() })
    }
}

/// What the card itself is called.
pub(super) const CARD: &str = "card";

/// Every place of a card, those first that are there; blocks that it could have come with them.
pub(super) fn places(root: &Node, table: &'static Block) -> Vec<Place> {
    let card =
        Place { name: CARD.to_owned(), mark: None, block: table, path: Vec::new(), there: true, above: Vec::new() };
    let mut out = Vec::new();
    walk(&mut out, Some(root), card);
    out.sort_by_key(|place| !place.there);
    out
}

/// Adds a place and all within it.
fn walk(out: &mut Vec<Place>, node: Option<&Node>, place: Place) {
    for key in place.block.keys {
        let value = node.and_then(|node| node.get(key.name));
        inner(out, value, &place, key, key.shape);
    }
    out.push(place);
}

/// The places within one key.
fn inner(out: &mut Vec<Place>, value: Option<&Node>, place: &Place, key: &'static Key, shape: Shape) {
    match shape {
        Shape::Block(block) => {
            let map = value.filter(|node| node.entries().is_some());
            walk(out, map, below(place, block, key.name, vec![Step::Key(key.name)], map.is_some()));
        }
        Shape::Once(list, ..) => inner(out, value, place, key, *list),
        Shape::List(Shape::Block(block), ..) => rows(out, value, place, key, block),
        Shape::Map(_, Shape::Block(block)) => {
            for entry in value.and_then(Node::entries).unwrap_or_default() {
                let Some(name) = entry.key.text() else { continue };
                let steps = vec![Step::Key(key.name), Step::Name(name.to_owned())];
                let inner = below(place, block, &format!("{}.{name}", key.name), steps, true);
                walk(out, Some(&entry.value), inner);
            }
        }
        _ => {}
    }
}

/// The rows of a list, each named by its first key; a name that is there again gets a number.
fn rows(out: &mut Vec<Place>, value: Option<&Node>, place: &Place, key: &'static Key, block: &'static Block) {
    let mut seen: Vec<&str> = Vec::new();
    for (at, row) in value.and_then(Node::list).unwrap_or_default().iter().enumerate() {
        let Some(naming) = block.naming() else { continue };
        let Some(name) = row.get(naming.name).and_then(Node::text) else { continue };
        let before = seen.iter().filter(|earlier| **earlier == name).count();
        seen.push(name);
        let number = if before == 0 { String::new() } else { format!("#{}", before + 1) };
        let steps = vec![Step::Key(key.name), Step::Row(at)];
        let mut inner = below(place, block, &format!("{}.{name}{number}", key.name), steps, true);
        let is_mark = matches!(naming.shape, Shape::Mark) && before == 0;
        inner.mark = is_mark.then(|| name.to_owned());
        walk(out, Some(row), inner);
    }
}

/// A place within another one.
fn below(place: &Place, block: &'static Block, name: &str, steps: Vec<Step>, there: bool) -> Place {
    let mut above = place.above.clone();
    above.push((place.path.clone(), place.block));
    let name = if place.path.is_empty() { name.to_owned() } else { format!("{}.{name}", place.name) };
    Place { name, mark: None, block, path: place.path.iter().cloned().chain(steps).collect(), there, above }
}

/// A place for a name that the writer chooses, which the card does not have yet: a new source.
pub(super) fn named(table: &'static Block, wish: &str) -> Option<Place> {
    let (key, name) = wish.split_once('.')?;
    let key = table.key(key)?;
    let Shape::Map(_, Shape::Block(block)) = key.shape else { return None };
    let fits = !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
    fits.then(|| Place {
        name: wish.to_owned(),
        mark: None,
        block,
        path: vec![Step::Key(key.name), Step::Name(name.to_owned())],
        there: false,
        above: vec![(Vec::new(), table)],
    })
}

/// The node at the end of a way.
pub(super) fn at<'n>(root: &'n Node, path: &[Step]) -> Option<&'n Node> {
    path.iter().try_fold(root, |node, step| match step {
        Step::Key(name) => node.get(name),
        Step::Name(name) => node.get(name),
        Step::Row(at) => node.list()?.get(*at),
    })
}
