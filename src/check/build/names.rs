//! Names that other places refer to: terminals, fuses, colours, items. Doubled ones are faults, and so is a
//! reference that has no target.

use super::super::sheet::Sheet;
use super::super::value::forbidden_mark;
use super::look;
use crate::source::Node;
use std::collections::BTreeMap;

/// The names of one kind in one file.
pub(crate) struct Names<'n> {
    /// What they are: "terminal of this card".
    what: &'static str,
    /// Each name with the line of its first place.
    lines: BTreeMap<&'n str, usize>,
    /// In file order.
    order: Vec<&'n str>,
}

impl<'n> Names<'n> {
    /// No names yet. `what` says what they are: "terminal of this card".
    pub(crate) fn new(what: &'static str) -> Self {
        Self { what, lines: BTreeMap::new(), order: Vec::new() }
    }

    /// The names that `key` gives in the rows of a list. One that is there twice is a fault at the second.
    pub(crate) fn of_rows(
        sheet: &mut Sheet<'_>,
        rows: impl Iterator<Item = &'n Node>,
        key: &str,
        what: &'static str,
    ) -> Self {
        let mut names = Self::new(what);
        rows.filter_map(|row| row.get(key)).for_each(|node| names.add(sheet, node));
        names
    }

    /// Adds the name at `node`; a fault when it is there already.
    pub(crate) fn add(&mut self, sheet: &mut Sheet<'_>, node: &'n Node) {
        let Some(name) = look::own_text(node) else { return };
        if let Some(line) = self.lines.get(name) {
            let message = format!("`{name}` is here twice; the first is in line {line}");
            sheet.fault(node.span, message, "each needs a name of its own");
            return;
        }
        self.lines.insert(name, node.span.line);
        self.order.push(name);
    }

    /// Whether there is such a name.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.lines.contains_key(name)
    }

    /// The names, in file order.
    pub(crate) fn list(&self) -> &[&'n str] {
        &self.order
    }

    /// The name at `node`, which must be one of these; else a fault with the nearest.
    pub(crate) fn find(&self, sheet: &mut Sheet<'_>, node: &Node) -> Option<String> {
        let name = look::own_text(node)?;
        if forbidden_mark(name).is_some() {
            return None;
        }
        if !self.has(name) {
            sheet.unknown(node.span, name, self.what, &self.order);
        }
        Some(name.to_owned())
    }

    /// The name that `key` of a block refers to.
    pub(crate) fn key(&self, sheet: &mut Sheet<'_>, block: &Node, key: &str) -> Option<String> {
        self.find(sheet, block.get(key)?)
    }

    /// The names that a list refers to; one that is there twice is a fault.
    pub(crate) fn list_at(&self, sheet: &mut Sheet<'_>, block: &Node, key: &str) -> Vec<String> {
        let nodes = block.get(key).and_then(Node::list).unwrap_or_default();
        let mut seen = Names::new(self.what);
        for node in nodes {
            seen.add(sheet, node);
        }
        nodes.iter().filter_map(|node| self.find(sheet, node)).collect()
    }

    /// The two names that a list refers to.
    pub(crate) fn pair_at(&self, sheet: &mut Sheet<'_>, block: &Node, key: &str) -> Option<(String, String)> {
        match self.list_at(sheet, block, key).as_slice() {
            [first, second] => Some((first.clone(), second.clone())),
            _ => None,
        }
    }
}
