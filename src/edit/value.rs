//! What a value is to become, from what was typed for it.

use super::quote::{Style, scalar, usual};
use super::{Refusal, refused};
use crate::check::{Key, Shape};
use crate::source::{self, Node, Value};

/// What a value is to become.
#[derive(Debug, Clone)]
pub(super) enum Wanted {
    /// A single value.
    One(String, Shape),
    /// A list of single values.
    List(Vec<String>, Shape),
    /// Blocks, in YAML on one line.
    Blocks(String),
}

impl Wanted {
    /// It in YAML on one line, as a card usually writes it.
    pub(super) fn yaml(&self) -> String {
        match self {
            Self::One(text, shape) => scalar(text, *shape, usual(text, *shape)),
            Self::List(items, shape) => {
                let items: Vec<String> = items.iter().map(|item| scalar(item, *shape, usual(item, *shape))).collect();
                format!("[{}]", items.join(", "))
            }
            Self::Blocks(yaml) => yaml.clone(),
        }
    }

    /// It in YAML, in the style of the single value whose place it takes.
    pub(super) fn yaml_like(&self, style: Style) -> String {
        match self {
            Self::One(text, shape) => scalar(text, *shape, style),
            _ => self.yaml(),
        }
    }
}

/// What a key is to become. A list or a block is typed as a card writes it, `[A, B]`, `{ key: value }`; anything else
/// is taken as it stands.
pub(super) fn wanted(key: &Key, typed: &str) -> Result<Wanted, Refusal> {
    let typed = typed.trim();
    if typed.is_empty() {
        let help = format!("write `{}={}`; to leave a key out, take it out of the file", key.name, key.example);
        return refused(format!("`{}` would be empty", key.name), help);
    }
    if typed == "none" && key.none {
        return Ok(Wanted::One(typed.to_owned(), key.shape));
    }
    of_shape(key, key.shape, typed)
}

fn of_shape(key: &Key, shape: Shape, typed: &str) -> Result<Wanted, Refusal> {
    match shape {
        Shape::Block(_) | Shape::Map(..) | Shape::List(Shape::Block(_), ..) => blocks(key, typed),
        Shape::Once(list, ..) => of_shape(key, *list, typed),
        Shape::List(inner, ..) => list(key, *inner, typed),
        Shape::OneOrMore(inner) if typed.starts_with('[') => list(key, *inner, typed),
        Shape::OneOrMore(inner) => of_shape(key, *inner, typed),
        Shape::Window(unit) | Shape::OneOrWindow(unit) if typed.starts_with('[') => {
            list(key, Shape::Quantity(unit), typed)
        }
        _ => Ok(Wanted::One(typed.to_owned(), shape)),
    }
}

fn blocks(key: &Key, typed: &str) -> Result<Wanted, Refusal> {
    let node = read(key, typed)?;
    if node.text().is_some() || typed.lines().nth(1).is_some() {
        return refused(format!("`{}` is no single value", key.name), format!("write `{}={}`", key.name, key.example));
    }
    Ok(Wanted::Blocks(typed.to_owned()))
}

fn list(key: &Key, inner: Shape, typed: &str) -> Result<Wanted, Refusal> {
    if !typed.starts_with('[') {
        return refused(format!("`{}` is a list", key.name), format!("write `{}={}`", key.name, key.example));
    }
    let node = read(key, typed)?;
    let items: Option<Vec<String>> =
        node.list().map(|nodes| nodes.iter().map(|node| node.text().map(str::to_owned)).collect()).unwrap_or_default();
    match items {
        Some(items) => Ok(Wanted::List(items, inner)),
        None => refused(
            format!("`{}` is a list of single values", key.name),
            format!("write `{}={}`", key.name, key.example),
        ),
    }
}

/// What was typed, as YAML; it must stay within its brackets.
fn read(key: &Key, typed: &str) -> Result<Node, Refusal> {
    let said = |why: &str| {
        let message = format!("the value of `{}` is not as a card writes it: {why}", key.name);
        Refusal::Wish(message, format!("write `{}={}`", key.name, key.example))
    };
    let node = source::read("VALUE", typed).map_err(|fault| said(&fault.message))?;
    match node.value {
        Value::Empty => Err(said("it is empty")),
        _ => Ok(node),
    }
}
