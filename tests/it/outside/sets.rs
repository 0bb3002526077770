//! `wirelore set` on every fact of every demo card, read by `PyYAML`: the same data but for what was set.

use super::super::edit::facts::{Fact, another, demo_cards, facts};
use super::tools;
use serde_json::{Value as Json, json};
use std::process::Command;
use wirelore::edit::{Wish, set};
use wirelore::source::{Node, Plain, Value, read};

/// A value as another reader must see it.
fn plain(node: &Node) -> Json {
    match &node.value {
        Value::Empty => Json::Null,
        Value::List(nodes) => nodes.iter().map(plain).collect(),
        Value::Map(entries) => {
            let pair = |(key, value): (&Node, &Node)| (key.text().expect("a key").to_owned(), plain(value));
            Json::Object(entries.iter().map(|entry| pair((&entry.key, &entry.value))).collect())
        }
        Value::Scalar(scalar) => match scalar.plain {
            Plain::Flag(flag) => json!(flag),
            Plain::Number => serde_json::from_str(&scalar.text).expect("a number"),
            Plain::Text => json!(scalar.text),
        },
    }
}

/// What the fact is after `typed` was set: a number stays a number, a text a text.
fn expected(fact: &Fact, typed: &str) -> Json {
    let was_typed = matches!(&fact.node.value, Value::Scalar(scalar) if !matches!(scalar.plain, Plain::Text));
    let is_bracketed = typed.starts_with(['[', '{']);
    if was_typed || is_bracketed { plain(&read("typed", typed).expect("YAML")) } else { json!(typed) }
}

#[test]
fn a_second_reader_sees_the_change_and_nothing_else() {
    let Some(python) = tools::python() else { return };
    let mut lines = String::new();
    let mut count = 0;
    for card in demo_cards() {
        lines.extend([json!({ "card": card.text }).to_string(), "\n".to_owned()]);
        for fact in facts(&card.text) {
            let typed = another(&fact);
            let values = [(fact.key.clone(), typed.clone())];
            let wish = Wish { folder: &card.folder, of: &fact.of, values: &values, cite: None };
            let text = set("card", &card.text, &wish).expect("it is set").text;
            let row = json!({ "path": fact.path, "value": expected(&fact, &typed), "text": text });
            lines.extend([row.to_string(), "\n".to_owned()]);
            count += 1;
        }
    }
    let mut second = Command::new(python);
    second.env("PYTHONDONTWRITEBYTECODE", "1").arg(tools::script("second_sets.py"));
    let printed = tools::run(&mut second, &lines);
    println!("{}", printed.trim());
    assert_eq!(printed.trim(), format!("{count} facts"));
}
