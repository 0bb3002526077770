//! Every fact of a card with the name that `wirelore set` knows it by, found without the program's tables: by looking
//! at what is in the file.

use std::fs;
use std::path::{Path, PathBuf};
use wirelore::source::{Node, Plain, Value, read};

/// The keys by which the rows of a list are told apart.
const NAMES: [&str; 7] = ["mark", "zone", "trigger", "supply", "input", "output", "state"];

/// The keys that say `none` where else a block stands.
const BLOCKS: [&str; 8] = ["mains", "tamper", "alarm", "siren", "keypad", "power", "supply", "battery"];

/// A key with a value on a card.
#[derive(Debug, Clone)]
pub(crate) struct Fact {
    /// The place as `set` calls it: `terminals.AUX+`, `card`.
    pub(crate) of: String,
    pub(crate) key: String,
    /// The way from the root: keys and row numbers.
    pub(crate) path: Vec<String>,
    pub(crate) node: Node,
}

/// A demo card.
pub(crate) struct Card {
    pub(crate) folder: String,
    pub(crate) file: String,
    pub(crate) text: String,
}

pub(crate) fn demo_cards() -> Vec<Card> {
    let library = Path::new(env!("CARGO_MANIFEST_DIR")).join("library");
    let mut cards = Vec::new();
    for folder in ["panels", "boards", "devices", "cables", "supplies"] {
        let mut paths: Vec<PathBuf> = fs::read_dir(library.join(folder))
            .expect("a folder")
            .map(|entry| entry.expect("an entry").path())
            .collect();
        paths.sort();
        for path in paths {
            let text = fs::read_to_string(&path).expect("a card");
            cards.push(Card { folder: folder.to_owned(), file: path.display().to_string(), text });
        }
    }
    assert!(cards.len() > 30, "the demo cards are there");
    cards
}

/// Every fact of a card: every key whose value is a single value or a list of single values.
pub(crate) fn facts(text: &str) -> Vec<Fact> {
    let mut out = Vec::new();
    walk(&mut out, &read("card", text).expect("YAML"), "", &[]);
    out
}

fn walk(out: &mut Vec<Fact>, node: &Node, of: &str, path: &[String]) {
    for entry in node.entries().expect("a block") {
        let key = entry.key.text().expect("a key").to_owned();
        let inner = |more: &str| if of.is_empty() { more.to_owned() } else { format!("{of}.{more}") };
        let below = |step: String| path.iter().cloned().chain([key.clone(), step]).collect::<Vec<_>>();
        match &entry.value.value {
            Value::Map(_) => {
                let path: Vec<String> = path.iter().cloned().chain([key.clone()]).collect();
                walk(out, &entry.value, &inner(&key), &path);
            }
            Value::List(nodes) if nodes.iter().any(|node| node.entries().is_some()) => {
                let mut seen: Vec<String> = Vec::new();
                for (at, row) in nodes.iter().enumerate() {
                    let name = NAMES.iter().find_map(|name| row.get(name)?.text()).expect("a row's name").to_owned();
                    let again = seen.iter().filter(|earlier| **earlier == name).count();
                    let number = if again == 0 { String::new() } else { format!("#{}", again + 1) };
                    walk(out, row, &inner(&format!("{key}.{name}{number}")), &below(at.to_string()));
                    seen.push(name);
                }
            }
            _ => {
                let of = if of.is_empty() { "card".to_owned() } else { of.to_owned() };
                let path = path.iter().cloned().chain([key.clone()]).collect();
                out.push(Fact { of, key, path, node: entry.value.clone() });
            }
        }
    }
}

/// Another value for a fact, as it is typed for `set`.
pub(crate) fn another(fact: &Fact) -> String {
    match &fact.node.value {
        Value::Scalar(scalar) if scalar.text == "none" => match fact.key.as_str() {
            "data" => "[NEW]".to_owned(),
            "triggers" => "[ { trigger: NEW } ]".to_owned(),
            key if BLOCKS.contains(&key) => "{ wiring: NEW }".to_owned(),
            _ => "NEW".to_owned(),
        },
        Value::List(nodes) => {
            let mut items: Vec<String> = nodes.iter().map(|node| quoted(node.text().expect("a text"))).collect();
            match nodes.last() {
                Some(last) => *items.last_mut().expect("an item") = quoted(&other_text(last)),
                None => items.push("NEW".to_owned()),
            }
            format!("[{}]", items.join(", "))
        }
        _ => other_text(&fact.node),
    }
}

/// A fact's value as it is typed for `set`.
pub(crate) fn typed(fact: &Fact) -> String {
    match &fact.node.value {
        Value::List(nodes) => {
            let items: Vec<String> = nodes.iter().map(|node| quoted(node.text().expect("a text"))).collect();
            format!("[{}]", items.join(", "))
        }
        _ => fact.node.text().expect("a text").to_owned(),
    }
}

/// Whether a fact is the name by which its row is found.
pub(crate) fn is_name(fact: &Fact) -> bool {
    let row = fact.path.iter().rev().nth(1).is_some_and(|step| step.bytes().all(|b| b.is_ascii_digit()));
    row && NAMES.contains(&fact.key.as_str())
}

fn other_text(node: &Node) -> String {
    let Value::Scalar(scalar) = &node.value else { return "NEW".to_owned() };
    match scalar.plain {
        Plain::Flag(flag) => (!flag).to_string(),
        Plain::Number => format!("1{}", scalar.text),
        Plain::Text if is_date(&scalar.text) => "2024-02-29".to_owned(),
        Plain::Text if scalar.text.starts_with(|c: char| c.is_ascii_digit()) => format!("1{}", scalar.text),
        Plain::Text => format!("{} 2", scalar.text),
    }
}

fn is_date(text: &str) -> bool {
    text.len() == 10 && text.bytes().all(|b| b.is_ascii_digit() || b == b'-')
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
