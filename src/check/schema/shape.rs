//! Shapes of values as schemas.

use super::super::keys::{Block, Key, MANY, Shape, Tie, Unit, When};
use super::super::parse::MOST;
use super::pattern;
use crate::source::{self, Node, Plain};
use crate::wording::COLOURS;
use serde_json::{Map, Value, json};

/// The blocks that a schema refers to.
#[derive(Debug, Default)]
pub(super) struct Defs {
    /// Each with its schema, in the order in which they were met.
    done: Map<String, Value>,
}

impl Defs {
    /// The schemas, each under the name of its block.
    pub(super) fn finish(self) -> Map<String, Value> {
        self.done
    }

    /// A reference to the schema of a block.
    pub(super) fn reference(&mut self, block: &'static Block) -> Value {
        let name = slug(block.name);
        if !self.done.contains_key(&name) {
            // Its place is kept before its inner ones are met.
            self.done.insert(name.clone(), Value::Null);
            let own = self.own(block);
            self.done.insert(name.clone(), own);
        }
        json!({ "$ref": format!("#/$defs/{name}") })
    }

    /// The schema of a block itself.
    pub(super) fn own(&mut self, block: &'static Block) -> Value {
        let properties: Map<String, Value> =
            block.keys.iter().map(|key| (key.name.to_owned(), self.property(key))).collect();
        let required: Vec<&str> = block.keys.iter().filter(|key| key.required).map(|key| key.name).collect();
        let mut out = Map::new();
        out.insert("description".into(), json!(block.name));
        out.insert("type".into(), json!("object"));
        out.insert("properties".into(), Value::Object(properties));
        out.insert("additionalProperties".into(), json!(false));
        out.insert("minProperties".into(), json!(1));
        if !required.is_empty() {
            out.insert("required".into(), json!(required));
        }
        let ties: Vec<Value> = block.keys.iter().flat_map(tied).collect();
        if !ties.is_empty() {
            out.insert("allOf".into(), json!(ties));
        }
        Value::Object(out)
    }

    /// A key: what it means, an example, and what its value looks like.
    fn property(&mut self, key: &'static Key) -> Value {
        let mut out = Map::new();
        out.insert("description".into(), json!(said(key)));
        if let Some(example) = example(key) {
            out.insert("examples".into(), json!([example]));
        }
        match self.value(key) {
            Value::Object(value) => out.extend(value),
            value => drop(out.insert("allOf".into(), json!([value]))),
        }
        Value::Object(out)
    }

    fn value(&mut self, key: &'static Key) -> Value {
        let shape = self.shape(key.shape);
        match (key.none, key.shape) {
            (true, _) => json!({ "anyOf": [{ "const": "none" }, shape] }),
            // Of these `none` would else be a right value.
            (false, Shape::Text | Shape::Name | Shape::OneOrMore(_)) => {
                with(shape, "not", Some(json!({ "const": "none" })))
            }
            (false, _) => shape,
        }
    }

    /// What a value looks like.
    fn shape(&mut self, shape: Shape) -> Value {
        match shape {
            Shape::Flag => json!({ "type": "boolean" }),
            Shape::Count(least) => json!({ "type": "integer", "minimum": least, "maximum": MOST }),
            Shape::Factor => json!({ "type": "number", "exclusiveMinimum": 0, "maximum": MOST }),
            Shape::Is(word) => json!({ "const": word }),
            Shape::Word(words) => json!({ "enum": words }),
            Shape::Quantity(unit) => quantity(unit, false),
            Shape::Positive(unit) => quantity(unit, true),
            Shape::QuantityOr(unit, word) => json!({ "anyOf": [{ "const": word }, quantity(unit, false)] }),
            Shape::Window(unit) => window(unit),
            Shape::OneOrWindow(unit) => json!({ "anyOf": [quantity(unit, false), window(unit)] }),
            Shape::List(inner, least, most) => {
                let names = matches!(inner, Shape::Mark | Shape::Name | Shape::Colour);
                let inner = self.shape(*inner);
                // What others are called by is there once.
                with(list(&inner, least, most), "uniqueItems", names.then_some(json!(true)))
            }
            Shape::Once(inner, key, word) => {
                let one = json!({ "properties": { key: { "const": word } }, "required": [key] });
                let list = with(self.shape(*inner), "contains", Some(one));
                with(with(list, "minContains", Some(json!(0))), "maxContains", Some(json!(1)))
            }
            Shape::Ring => list(&text(pattern::TEXT), 2, MANY),
            Shape::OneOrMore(inner) => {
                let inner = self.shape(*inner);
                json!({ "anyOf": [inner, list(&inner, 0, MANY)] })
            }
            Shape::Block(block) => self.reference(block),
            Shape::Map(_, inner) => {
                let inner = self.shape(*inner);
                json!({ "type": "object", "propertyNames": { "pattern": pattern::TEXT }, "additionalProperties": inner })
            }
            text => single(text),
        }
    }
}

/// A single text of a certain form.
fn single(shape: Shape) -> Value {
    match shape {
        Shape::Mark => text(&pattern::mark()),
        Shape::Id => text(pattern::ID),
        Shape::Colour => text(&pattern::colour(&COLOURS.map(|(name, _)| name))),
        Shape::Date => text(pattern::DATE),
        Shape::Month => text(pattern::MONTH),
        Shape::Core => text(&pattern::core()),
        Shape::Fuse => text(&pattern::fuse()),
        Shape::Name => text(pattern::NAME),
        _ => text(pattern::TEXT),
    }
}

/// A text. What is not in quotes and looks like a number is read as its text.
fn text(pattern: &str) -> Value {
    json!({ "type": ["string", "number"], "pattern": pattern })
}

fn quantity(unit: Unit, positive: bool) -> Value {
    let (name, right) = unit.words();
    let form = pattern::quantity(unit, positive);
    json!({ "type": "string", "pattern": form, "title": format!("{name}, with the unit: {right}") })
}

fn window(unit: Unit) -> Value {
    list(&quantity(unit, false), 2, 2)
}

fn list(inner: &Value, least: usize, most: usize) -> Value {
    let out = json!({ "type": "array", "items": inner });
    let out = with(out, "minItems", (least > 0).then_some(json!(least)));
    with(out, "maxItems", (most != MANY).then_some(json!(most)))
}

/// A schema with one rule more.
fn with(mut schema: Value, name: &str, rule: Option<Value>) -> Value {
    if let (Value::Object(map), Some(rule)) = (&mut schema, rule) {
        map.insert(name.to_owned(), rule);
    }
    schema
}

/// What a key means, and that it takes `none`.
fn said(key: &Key) -> String {
    if key.none { format!("{}; `none`: known to be absent", key.means) } else { key.means.to_owned() }
}

/// The example of a key as a value.
fn example(key: &Key) -> Option<Value> {
    source::read("example", key.example).ok().map(|node| plain(&node))
}

/// A node as JSON.
fn plain(node: &Node) -> Value {
    match &node.value {
        source::Value::Empty => Value::Null,
        source::Value::List(nodes) => nodes.iter().map(plain).collect(),
        source::Value::Map(entries) => entries
            .iter()
            .filter_map(|entry| Some((entry.key.text()?.to_owned(), plain(&entry.value))))
            .collect::<Map<_, _>>()
            .into(),
        source::Value::Scalar(scalar) => match scalar.plain {
            Plain::Flag(flag) => json!(flag),
            Plain::Number => serde_json::from_str(&scalar.text).unwrap_or_else(|_| json!(scalar.text)),
            Plain::Text => json!(scalar.text),
        },
    }
}

/// What a key has to do with others, as conditions on its block.
fn tied(key: &Key) -> Vec<Value> {
    // Not plain `false`: some readers then do not say which key it is.
    let refused = if key.none { json!({ "const": "none" }) } else { json!({ "not": {} }) };
    let only = |tie: Tie| when(&tie.when, &Value::Null, &json!({ "properties": { key.name: refused } }));
    let due = |tie: Tie| when(&tie.when, &json!({ "required": [key.name] }), &Value::Null);
    key.only.map(only).into_iter().chain(key.due.map(due)).collect()
}

/// A condition with what must hold when it is so, and when it is not.
fn when(when: &When, so: &Value, otherwise: &Value) -> Value {
    let says: Vec<Value> =
        when.says.iter().map(|word| word.parse::<bool>().map_or_else(|_| json!(word), Value::Bool)).collect();
    let is = json!({ "properties": { when.key: { "enum": says } }, "required": [when.key] });
    let (then, other) = if when.not { (otherwise, so) } else { (so, otherwise) };
    let mut out = Map::from_iter([("if".to_owned(), is)]);
    for (name, rule) in [("then", then), ("else", other)] {
        if !rule.is_null() {
            out.insert(name.into(), rule.clone());
        }
    }
    Value::Object(out)
}

/// A block's name as a word: "a siren trigger" is `siren-trigger`.
fn slug(name: &str) -> String {
    let words: Vec<String> = name
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !matches!(*word, "" | "a" | "an" | "the" | "of" | "s"))
        .map(str::to_lowercase)
        .collect();
    words.join("-")
}
