//! `set` on every fact of every demo card.

use super::facts::{Card, Fact, another, demo_cards, facts, is_name, typed};
use rayon::prelude::*;
use std::collections::BTreeSet;
use wirelore::edit::{Changed, Edited, Wish, changed, set};
use wirelore::source::{Node, Value, read};

fn set_one(folder: &str, text: &str, fact: &Fact, value: &str, cite: Option<&str>) -> Edited {
    let values = [(fact.key.clone(), value.to_owned())];
    let wish = Wish { folder, of: &fact.of, values: &values, cite };
    set("card", text, &wish).unwrap_or_else(|why| panic!("{} {}={value}: {why:?}", fact.of, fact.key))
}

/// The bytes that a value takes in its text, found by what it is last made of.
fn last_byte(node: &Node, text: &str) -> usize {
    match &node.value {
        Value::List(nodes) => {
            let from = nodes.last().map_or(node.span.start, |last| last_byte(last, text));
            if node.span.length == 0 { from } else { from + text[from..].find(']').expect("a bracket") + 1 }
        }
        _ => node.span.start + node.span.length,
    }
}

#[test]
fn every_fact_of_every_demo_card_changes_in_its_own_place_alone() {
    let cards = demo_cards();
    let count: usize = cards.par_iter().map(every_fact_changes_alone).sum();
    println!("{count} facts");
    assert!(count > 2000, "{count}");
}

/// Sets each fact of a card to another value and back. Gives how many there are.
fn every_fact_changes_alone(card: &Card) -> usize {
    let facts = facts(&card.text);
    let mut kinds = BTreeSet::new();
    for fact in &facts {
        let new = another(fact);
        let edited = set_one(&card.folder, &card.text, fact, &new, None);
        let name = format!("{}: {} {}", card.file, fact.of, fact.key);
        assert!(edited.corrected && edited.text != card.text, "{name}");
        only_there(card, fact, &edited.text, &name);
        // Once for each kind of fact is enough here.
        if kinds.insert((fact.key.clone(), fact.node.span.length == 1)) {
            set_back(card, &edited.text, fact, &new);
        }
    }
    facts.len()
}

/// Nothing but the bytes of the fact, in one line of it, has changed.
fn only_there(card: &Card, fact: &Fact, text: &str, name: &str) {
    let (start, end) = (fact.node.span.start, last_byte(&fact.node, &card.text));
    assert!(text.starts_with(&card.text[..start]), "{name}: something before it changed");
    assert!(text.ends_with(&card.text[end..]), "{name}: something after it changed");
    let lines = changed(&card.text, text);
    let [Changed { line, old, new }] = lines.as_slice() else { panic!("{name}: {lines:?}") };
    let first = fact.node.span.line;
    let most = card.text[start..end].lines().count();
    assert!(*line >= first && *line < first + most.max(1), "{name}: line {line}, not {first}");
    assert_eq!((old.len(), new.len()), (1, 1), "{name}: {lines:?}");
}

/// Sets a changed fact to what it was before.
fn set_back(card: &Card, text: &str, fact: &Fact, new: &str) {
    // A row is now found by its new name; a block that came for `none` is no single value any more.
    let (list, _) = fact.of.rsplit_once('.').unwrap_or_default();
    let of = if is_name(fact) { format!("{list}.{new}") } else { fact.of.clone() };
    if !new.contains('{') {
        let back = set_one(&card.folder, text, &Fact { of, ..fact.clone() }, &typed(fact), None);
        assert!(back.text == card.text, "{}: {} {}: {}", card.file, fact.of, fact.key, back.text);
    }
}

#[test]
fn a_cite_touches_the_cites_line_alone() {
    for card in demo_cards() {
        let root = read("card", &card.text).expect("YAML");
        let Some(source) = root.get("sources").and_then(|node| node.entries()?.first()?.key.text().map(str::to_owned))
        else {
            continue;
        };
        let cite = format!("{source} p.99");
        let mut kinds = BTreeSet::new();
        let mut own = |fact: &Fact| {
            !fact.of.starts_with("sources") && fact.key != "cite" && kinds.insert((fact.path.len(), fact.key.clone()))
        };
        for fact in facts(&card.text).into_iter().filter(|fact| own(fact)) {
            let edited = set_one(&card.folder, &card.text, &fact, &another(&fact), Some(&cite));
            let lines = changed(&card.text, &edited.text);
            let name = format!("{}: {} {}: {lines:?}", card.file, fact.of, fact.key);
            assert!(lines.len() <= 2, "{name}");
            let (old, new): (usize, usize) =
                lines.iter().fold((0, 0), |(old, new), place| (old + place.old.len(), new + place.new.len()));
            assert!(old <= 2 && (new == old || new == old + 1), "{name}");
            let cited = lines.iter().flat_map(|place| &place.new).filter(|line| line.contains(&cite)).count();
            assert_eq!(cited, 1, "{name}");
        }
    }
}
