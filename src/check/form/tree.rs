//! The survey while it is put together from cells.

use super::cells::Place;
use crate::check::keys::SURVEY;

/// A value with where it is written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Leaf {
    pub(super) text: String,
    pub(super) place: Place,
}

/// A block of keys.
#[derive(Debug, Default)]
pub(super) struct Tree {
    pub(super) entries: Vec<(String, Value)>,
}

/// What a key holds.
#[derive(Debug)]
pub(super) enum Value {
    Leaf(Leaf),
    Block(Tree),
    Blocks(Vec<Tree>),
    Leaves(Vec<Leaf>),
}

impl Tree {
    /// Puts a value at a path, `battery.load.current`; what stood there goes.
    pub(super) fn put(&mut self, path: &str, leaf: Leaf) {
        let Some((first, rest)) = path.split_once('.') else { return self.set(path, Value::Leaf(leaf)) };
        for (name, value) in &mut self.entries {
            if let Value::Block(inner) = value
                && name == first
            {
                return inner.put(rest, leaf);
            }
        }
        let mut inner = Self::default();
        inner.put(rest, leaf);
        self.entries.push((first.to_string(), Value::Block(inner)));
    }

    /// Puts a value at a key; what stood there goes.
    pub(super) fn set(&mut self, key: &str, value: Value) {
        match self.entries.iter_mut().find(|(name, _)| name == key) {
            Some((_, old)) => *old = value,
            None => self.entries.push((key.to_string(), value)),
        }
    }

    /// Adds a value at the end, even if its key is there: a check says so.
    pub(super) fn add(&mut self, key: &str, value: Value) {
        self.entries.push((key.to_string(), value));
    }

    /// Adds blocks to the list at a key.
    pub(super) fn extend(&mut self, key: &str, mut more: Vec<Tree>) {
        if more.is_empty() {
            return;
        }
        for (name, value) in &mut self.entries {
            if let Value::Blocks(there) = value
                && name == key
            {
                there.append(&mut more);
                return;
            }
        }
        self.set(key, Value::Blocks(more));
    }

    /// Puts the survey's keys into the order of its format.
    pub(super) fn in_order(&mut self) {
        let place = |name: &str| SURVEY.keys.iter().position(|key| key.name == name);
        self.entries.sort_by_key(|(name, _)| place(name));
    }
}
