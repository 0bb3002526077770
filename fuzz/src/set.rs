//! One fact set on a card: nothing else of the card changes, and setting it again changes nothing.

use super::demo::{self, FILES};
use super::texts::texts;
use std::collections::BTreeMap;
use wirelore::edit::{Wish, set as set_fact};
use wirelore::source::{Node, Value, read};

/// Sets a fact: the first byte says on which demo card, then come texts: whose fact, its key, its value, a cite, and
/// what is put into the card before.
pub fn set(bytes: &[u8]) {
    let Some((which, rest)) = bytes.split_first() else { return };
    let cards: Vec<&String> = FILES.files.keys().filter(|path| is_card(path)).collect();
    let path = cards[usize::from(*which) % cards.len()];
    let folder = path.split('/').next().unwrap_or_default();
    let texts = texts(rest);
    let nth = |n: usize| texts.get(n).map_or("", String::as_str);
    let mut card = demo::text(path).to_owned();
    if !nth(4).is_empty() {
        // Somewhere in the card, by what is put in.
        let at = nth(4).len() * 97 % card.len();
        let at = (at..card.len()).find(|at| card.is_char_boundary(*at)).unwrap_or(0);
        card.insert_str(at, nth(4));
    }
    let values = [(nth(1).to_owned(), nth(2).to_owned())];
    let cite = Some(nth(3)).filter(|cite| !cite.is_empty());
    let wish = Wish { folder, of: nth(0), values: &values, cite };
    let Ok(edited) = set_fact("card", &card, &wish) else { return };
    let before = flat(&read("card", &card).expect("it was read"));
    let after = flat(&read("card", &edited.text).unwrap_or_else(|fault| panic!("{fault:?}\n{}", edited.text)));
    let apart: Vec<&String> = before
        .iter()
        .chain(&after)
        .filter(|(k, v)| before.get(*k) != Some(v) || after.get(*k) != Some(v))
        .map(|(k, _)| k)
        .collect();
    let part = |path: &str, key: &str| path.split('/').any(|part| part.split('#').next() == Some(key));
    let same = apart.iter().all(|path| part(path, nth(1)) || (cite.is_some() && part(path, "cite")));
    assert!(same, "{wish:?} changed {apart:?}\n{}", edited.text);
    let again = set_fact("card", &edited.text, &wish);
    // A row whose name was set has another one now.
    if let Ok(again) = again {
        assert_eq!(again.text, edited.text, "{wish:?}");
    }
}

fn is_card(path: &str) -> bool {
    ["panels/", "boards/", "devices/", "cables/", "supplies/"].iter().any(|folder| path.starts_with(folder))
}

/// Every single value of a tree by its way, list places with `#`.
fn flat(node: &Node) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    walk(node, "", &mut all);
    all
}

fn walk(node: &Node, way: &str, all: &mut BTreeMap<String, String>) {
    match &node.value {
        Value::Map(entries) => {
            for entry in entries {
                let key = entry.key.text().unwrap_or("?");
                walk(&entry.value, &format!("{way}/{key}"), all);
            }
        }
        Value::List(nodes) => {
            for (at, node) in nodes.iter().enumerate() {
                walk(node, &format!("{way}#{at}"), all);
            }
        }
        Value::Empty => drop(all.insert(way.to_owned(), String::new())),
        Value::Scalar(scalar) => drop(all.insert(way.to_owned(), scalar.text.clone())),
    }
}
