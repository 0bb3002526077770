//! A YAML document as nodes. Duplicate keys are kept, and every node knows where it stands.

pub use crate::diagnostics::Span;

/// A node with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stands; for what comes through an alias, where the alias stands.
    pub span: Span,
    /// What it is.
    pub value: Value,
}

/// What a node is.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing at all, `~` or `null`.
    Empty,
    /// A single value.
    Scalar(Scalar),
    /// A list.
    List(Vec<Node>),
    /// Keys with values, in file order, duplicates kept.
    Map(Vec<Entry>),
}

/// A single value, as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scalar {
    /// Its text: `4k7`, `01` and `1.0` stay what they were.
    pub text: String,
    /// What YAML takes it for when it is not in quotes.
    pub plain: Plain,
}

/// What YAML takes a value for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plain {
    /// Text, in quotes or not.
    Text,
    /// `true` or `false`, not in quotes.
    Flag(bool),
    /// A number, not in quotes.
    Number,
}

/// A key with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: Node,
    /// Its value.
    pub value: Node,
}

impl Node {
    /// The text of a single value.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Scalar(scalar) => Some(&scalar.text),
            _ => None,
        }
    }

    /// The entries of a map.
    #[must_use]
    pub fn entries(&self) -> Option<&[Entry]> {
        match &self.value {
            Value::Map(entries) => Some(entries),
            _ => None,
        }
    }

    /// The nodes of a list.
    #[must_use]
    pub fn list(&self) -> Option<&[Node]> {
        match &self.value {
            Value::List(nodes) => Some(nodes),
            _ => None,
        }
    }

    /// The value of a key; the first one when it is there twice.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entry(key).map(|entry| &entry.value)
    }

    /// The entry of a key; the first one when it is there twice.
    #[must_use]
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries()?.iter().find(|entry| entry.key.text() == Some(key))
    }
}
