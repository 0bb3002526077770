//! JSON Schemas (draft 2020-12) of the files, made from the table of keys, for editors and other programs. A schema
//! knows one file and no other: whether a mark is on the card, or a card in the library, `check` alone can say.

mod pattern;
mod shape;

use super::keys::{self, Block};
use serde_json::{Map, Value, json};
use shape::Defs;

/// What schemas there are: of any card, and of each kind of file.
pub const SCHEMAS: [&str; 11] =
    ["card", "panel", "board", "device", "cable", "supply", "survey", "readings", "rules", "note", "terms"];

/// The draft that the schemas keep to.
const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";

/// The kinds of card.
const CARDS: [(&str, &Block); 5] = [
    ("panel", &keys::PANEL),
    ("board", &keys::BOARD),
    ("device", &keys::DEVICE),
    ("cable", &keys::CABLE),
    ("supply", &keys::SUPPLY),
];

/// The schema of a kind of file; `None` for a word that is none of [`SCHEMAS`].
#[must_use]
pub fn schema(kind: &str) -> Option<Value> {
    let mut defs = Defs::default();
    let body = match kind {
        "card" => card(&mut defs),
        "survey" => defs.own(&keys::SURVEY),
        "readings" => defs.own(&keys::READINGS),
        "rules" => defs.own(&keys::RULES),
        "note" => defs.own(&keys::NOTE),
        "terms" => defs.own(&keys::TERMS),
        kind => defs.own(CARDS.iter().find(|(name, _)| *name == kind)?.1),
    };
    let mut out = Map::new();
    out.insert("$schema".into(), json!(DRAFT));
    out.insert("title".into(), json!(title(kind)));
    if let Value::Object(body) = body {
        out.extend(body);
    }
    let defs = defs.finish();
    if !defs.is_empty() {
        out.insert("$defs".into(), Value::Object(defs));
    }
    Some(Value::Object(out))
}

fn title(kind: &str) -> String {
    match kind {
        "card" => "Wirelore: a card of any kind".to_owned(),
        "survey" => "Wirelore: a survey".to_owned(),
        "readings" => "Wirelore: a file of readings".to_owned(),
        "rules" => "Wirelore: a rules file".to_owned(),
        "note" => "Wirelore: the header of a note".to_owned(),
        "terms" => "Wirelore: the file of rings of words".to_owned(),
        kind => format!("Wirelore: a {kind} card"),
    }
}

/// A card of any kind: its `kind` says which keys it has.
fn card(defs: &mut Defs) -> Value {
    let kinds: Vec<&str> = CARDS.iter().map(|(kind, _)| *kind).collect();
    let branches: Vec<Value> = CARDS
        .iter()
        .map(|(kind, block)| {
            let is = json!({ "properties": { "kind": { "const": kind } }, "required": ["kind"] });
            json!({ "if": is, "then": defs.reference(block) })
        })
        .collect();
    json!({
        "type": "object",
        "properties": { "kind": { "enum": kinds, "description": keys::KIND } },
        "required": ["kind"],
        "allOf": branches,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The names under which blocks are told apart would otherwise hide one behind another.
    #[test]
    fn every_block_of_a_kind_has_a_name_of_its_own() {
        for kind in SCHEMAS {
            let mut seen: Vec<(&str, &Block)> = Vec::new();
            let blocks: Vec<&'static Block> = match kind {
                "survey" => vec![&keys::SURVEY],
                "card" => CARDS.iter().map(|(_, block)| *block).collect(),
                _ => vec![],
            };
            let mut ahead = blocks;
            while let Some(block) = ahead.pop() {
                let clash = seen.iter().any(|(name, other)| *name == block.name && !std::ptr::eq(*other, block));
                assert!(!clash, "{}", block.name);
                seen.push((block.name, block));
                ahead.extend(block.keys.iter().filter_map(|key| super::super::starter::inner(key.shape)));
            }
        }
    }

    #[test]
    fn a_schema_comes_out_for_each_kind_and_for_nothing_else() {
        for kind in SCHEMAS {
            let schema = schema(kind).expect("a schema");
            assert_eq!(schema["$schema"], DRAFT, "{kind}");
            assert!(schema["type"] == "object", "{kind}");
        }
        assert_eq!(schema("library"), None);
    }
}
