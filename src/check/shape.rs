//! Holds a tree against the table of keys: unknown, doubled and missing keys, empty values, wrong types and units,
//! words that no key takes. What a value refers to is looked at later.

use super::keys::{Block, Key, MANY, Shape};
use super::sheet::{Sheet, spelling};
use super::value;
use crate::diagnostics::Span;
use crate::source::{Entry, Node, Plain, Value};
use std::collections::BTreeMap;

/// Checks a block and all within it.
pub(crate) fn block(sheet: &mut Sheet<'_>, node: &Node, block: &Block) {
    let Value::Map(entries) = &node.value else {
        let names: Vec<&str> = block.keys.iter().map(|key| key.name).collect();
        sheet.fault(
            node.span,
            format!("{} is due here, a block of keys; found: {}", block.name, value::kind(node)),
            format!("its keys are {}", names.join(", ")),
        );
        return;
    };
    let names: Vec<&str> = block.keys.iter().map(|key| key.name).collect();
    let mut seen = BTreeMap::new();
    for entry in entries {
        let Some(name) = key_name(sheet, entry) else { continue };
        doubled(sheet, &mut seen, entry, name);
        match block.key(name) {
            Some(key) => key_value(sheet, key, entry),
            None => unknown_key(sheet, entry, name, block, &names),
        }
    }
    for key in block.keys.iter().filter(|key| key.required && node.entry(key.name).is_none()) {
        let help = format!("{}: `{}: {}`", key.means, key.name, key.example);
        sheet.fault(place(node), format!("{} needs the key `{}`", block.name, key.name), help);
    }
    ties(sheet, node, block);
}

/// Keys that make no sense beside what another key says, and keys that it asks for. Of a block with one that makes no
/// sense it is not asked what it lacks: it is a slip of the other key as likely.
fn ties(sheet: &mut Sheet<'_>, node: &Node, block: &Block) {
    let before = sheet.faults.len();
    for key in block.keys {
        let (Some(entry), Some(tie)) = (node.entry(key.name), &key.only) else { continue };
        let is_none = key.none && entry.value.text() == Some("none");
        if !is_none && !tie.when.holds(node) {
            sheet.fault(entry.key.span, tie.message, tie.help);
        }
    }
    if sheet.faults.len() > before {
        return;
    }
    for key in block.keys.iter().filter(|key| node.entry(key.name).is_none()) {
        if let Some(tie) = key.due.as_ref().filter(|tie| !tie.message.is_empty() && tie.when.holds(node)) {
            sheet.fault(place(node), tie.message, tie.help);
        }
    }
}

/// Where a block begins: its bracket, or its first key.
pub(crate) fn place(node: &Node) -> Span {
    match node.entries() {
        Some([first, ..]) if node.span.length == 0 => first.key.span,
        _ => node.span,
    }
}

/// The name of a key; a fault when it is a list or a block.
fn key_name<'n>(sheet: &mut Sheet<'_>, entry: &'n Entry) -> Option<&'n str> {
    let name = entry.key.text().filter(|name| !name.trim().is_empty());
    if name.is_none() {
        sheet.fault(entry.key.span, "this is no name for a key", "write a word and a colon: `mark: AUX+`");
    }
    name
}

/// A key that was there before. `seen` holds the line of each key's first place.
fn doubled<'n>(sheet: &mut Sheet<'_>, seen: &mut BTreeMap<&'n str, usize>, entry: &Entry, name: &'n str) {
    match seen.get(name) {
        Some(first) => {
            let message = format!("the key `{name}` is here twice; the first is in line {first}");
            sheet.fault(entry.key.span, message, "keep one of them");
        }
        None => {
            seen.insert(name, entry.key.span.line);
        }
    }
}

fn unknown_key(sheet: &mut Sheet<'_>, entry: &Entry, name: &str, block: &Block, names: &[&str]) {
    let help = spelling(name, names);
    sheet.fault(entry.key.span, format!("{} has no key `{name}`", block.name), help);
}

/// Checks the value of a key of the table.
fn key_value(sheet: &mut Sheet<'_>, key: &Key, entry: &Entry) {
    if value::is_empty(&entry.value, key.shape) {
        let none = if key.none { "write `none` when there is none, " } else { "" };
        let write = format!("write `{}: {}`", key.name, key.example);
        // A key that must be there is no key to leave out.
        let help =
            if key.required { write } else { format!("leave the key out when it is not known, {none}or {write}") };
        sheet.fault(entry.key.span, format!("`{}` is empty", key.name), help);
        return;
    }
    if entry.value.text() == Some("none") && !matches!(key.shape, Shape::Word(_)) {
        if !key.none {
            sheet.fault(
                entry.value.span,
                format!("`{}` does not take `none`", key.name),
                format!("leave the key out when it is not known, or write `{}: {}`", key.name, key.example),
            );
        }
        return;
    }
    shape(sheet, &entry.value, key.shape, key);
}

/// Checks a value against a shape; `key` gives the words of the fault.
fn shape(sheet: &mut Sheet<'_>, node: &Node, wanted: Shape, key: &Key) {
    match wanted {
        Shape::Block(inner) => block(sheet, node, inner),
        Shape::List(inner, least, most) => list(sheet, node, *inner, (least, most), key),
        Shape::OneOrMore(inner) => match &node.value {
            Value::List(nodes) => nodes.iter().for_each(|n| entry(sheet, n, *inner, key)),
            _ => shape(sheet, node, *inner, key),
        },
        Shape::Once(inner, ..) => shape(sheet, node, *inner, key),
        Shape::Ring => ring(sheet, node, key),
        Shape::Map(what, inner) => map(sheet, node, what, *inner, key),
        Shape::Window(unit) => value::window(sheet, node, unit, key),
        Shape::OneOrWindow(unit) if node.list().is_some() => value::window(sheet, node, unit, key),
        Shape::Positive(unit) => value::positive(sheet, node, unit, key),
        Shape::QuantityOr(_, word) if node.text() == Some(word) => {}
        Shape::OneOrWindow(unit) | Shape::Quantity(unit) | Shape::QuantityOr(unit, _) => {
            value::quantity(sheet, node, unit, key);
        }
        Shape::Flag => value::flag(sheet, node, key),
        Shape::Count(least) => value::count(sheet, node, least, key),
        Shape::Factor => value::factor(sheet, node, key),
        Shape::Word(words) => value::word(sheet, node, words, key),
        Shape::Text
        | Shape::Is(_)
        | Shape::Name
        | Shape::Mark
        | Shape::Id
        | Shape::Colour
        | Shape::Date
        | Shape::Month
        | Shape::Core
        | Shape::Fuse => value::text(sheet, node, wanted, key),
    }
}

/// An entry of a list: it must not be empty.
fn entry(sheet: &mut Sheet<'_>, node: &Node, wanted: Shape, key: &Key) {
    if value::is_empty(node, wanted) {
        sheet.fault(node.span, format!("an entry of `{}` is empty", key.name), "fill it in, or take it out");
    } else {
        shape(sheet, node, wanted, key);
    }
}

/// Words that stand for each other; one alone stands for nothing else.
fn ring(sheet: &mut Sheet<'_>, node: &Node, key: &Key) {
    list(sheet, node, Shape::Text, (0, MANY), key);
    if node.list().is_some_and(|words| words.len() < 2) {
        sheet.fault(node.span, "a ring needs two words at least", "write `[strobe, stb, flash]`");
    }
}

fn list(sheet: &mut Sheet<'_>, node: &Node, inner: Shape, (least, most): (usize, usize), key: &Key) {
    let Value::List(nodes) = &node.value else {
        let message = format!("`{}` is a list; here is {}", key.name, value::kind(node));
        sheet.fault(node.span, message, format!("write `{}: {}`", key.name, key.example));
        return;
    };
    if nodes.len() < least || nodes.len() > most {
        let due = if least == most { "" } else { "at least " };
        let noun = if least == 1 { "entry" } else { "entries" };
        let message = format!("`{}` needs {due}{least} {noun}; found: {}", key.name, nodes.len());
        sheet.fault(node.span, message, format!("write `{}: {}`", key.name, key.example));
    }
    for n in nodes {
        entry(sheet, n, inner, key);
    }
}

fn map(sheet: &mut Sheet<'_>, node: &Node, what: &str, inner: Shape, key: &Key) {
    let Value::Map(entries) = &node.value else {
        let message = format!("`{}` gives each {what} a value; here is {}", key.name, value::kind(node));
        sheet.fault(node.span, message, format!("write `{}: {}`", key.name, key.example));
        return;
    };
    let mut seen = BTreeMap::new();
    for one in entries {
        let Some(name) = key_name(sheet, one) else { continue };
        doubled(sheet, &mut seen, one, name);
        if value::is_empty(&one.value, inner) {
            let message = format!("the {what} `{name}` has an empty value");
            sheet.fault(one.key.span, message, format!("fill it in, or take it out: `{}`", key.example));
        } else {
            shape(sheet, &one.value, inner, key);
        }
    }
}

/// Whether a value is text or a number: what can be read as text.
pub(crate) fn is_text(node: &Node) -> bool {
    matches!(&node.value, Value::Scalar(scalar) if !matches!(scalar.plain, Plain::Flag(_)))
}
