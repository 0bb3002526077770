//! Single values held against what their key takes.

use super::keys::{Key, Shape, Unit};
use super::sheet::{Sheet, spelling};
use super::{parse, shape};
use crate::source::{Node, Plain, Value};
use crate::units::Misread;
use crate::wording;

/// What a node is, in words.
pub(crate) fn kind(node: &Node) -> &'static str {
    match &node.value {
        Value::Empty => "nothing",
        Value::List(_) => "a list",
        Value::Map(_) => "a block of keys",
        Value::Scalar(scalar) => match scalar.plain {
            Plain::Flag(_) => "`true` or `false`",
            Plain::Number => "a bare number",
            Plain::Text => "a text",
        },
    }
}

/// Whether a value says nothing.
pub(crate) fn is_empty(node: &Node, wanted: Shape) -> bool {
    match &node.value {
        Value::Empty => true,
        Value::Scalar(scalar) => scalar.text.trim().is_empty(),
        Value::Map(entries) => entries.is_empty() && matches!(wanted, Shape::Block(_)),
        Value::List(_) => false,
    }
}

fn example(key: &Key) -> String {
    format!("write `{}: {}`", key.name, key.example)
}

/// A quantity with its unit. Gives its value in the base unit.
fn read(sheet: &mut Sheet<'_>, node: &Node, unit: Unit) -> Option<f64> {
    let (name, right) = unit.words();
    let help = format!("write {name} with the unit, for example `{right}`");
    let Some(text) = node.text() else {
        sheet.fault(node.span, format!("{name} are due; here is {}", kind(node)), help);
        return None;
    };
    match unit.read(text) {
        Ok(value) => Some(value),
        Err(wrong) => {
            sheet.fault(node.span, misread(text, &wrong, name), help);
            None
        }
    }
}

/// Why a text is not the quantity that is due, in words; `name` is what its unit is called, `volts`.
#[must_use]
pub fn misread(text: &str, wrong: &Misread, name: &str) -> String {
    match wrong {
        _ if text.contains(',') => format!("`{text}` has a comma; a decimal point is due"),
        Misread::NoUnit => format!("`{text}` has no unit; {name} are due"),
        Misread::WrongUnit(found) => wrong_unit(text, found, name),
        Misread::NotANumber => format!("`{text}` is no quantity; {name} are due"),
        Misread::OutOfRange => format!("`{text}` is out of range"),
    }
}

fn wrong_unit(text: &str, found: &str, name: &str) -> String {
    match Unit::ALL.iter().find(|other| other.read(text).is_ok()) {
        Some(other) => format!("`{text}` is in {}; {name} are due", other.words().0),
        None => format!("`{text}`: `{found}` is no unit of {name}"),
    }
}

/// A quantity.
pub(crate) fn quantity(sheet: &mut Sheet<'_>, node: &Node, unit: Unit, key: &Key) {
    if node.list().is_some() {
        let message = format!("`{}` is one quantity, not a window", key.name);
        sheet.fault(node.span, message, example(key));
        return;
    }
    read(sheet, node, unit);
}

/// A quantity above nothing.
pub(crate) fn positive(sheet: &mut Sheet<'_>, node: &Node, unit: Unit, key: &Key) {
    if node.list().is_some() {
        return quantity(sheet, node, unit, key);
    }
    if read(sheet, node, unit).is_some_and(|value| value <= 0.0) {
        sheet.fault(node.span, format!("`{}` must be above nothing", key.name), example(key));
    }
}

/// A window `[low, high]`.
pub(crate) fn window(sheet: &mut Sheet<'_>, node: &Node, unit: Unit, key: &Key) {
    let Some([low, high]) = node.list() else {
        let here = if node.list().is_some() { "a list of another length" } else { kind(node) };
        let message = format!("`{}` is a window, two quantities; here is {here}", key.name);
        sheet.fault(node.span, message, format!("write `[low, high]`, for example `{}: {}`", key.name, key.example));
        return;
    };
    let (a, b) = (read(sheet, low, unit), read(sheet, high, unit));
    if let (Some(a), Some(b)) = (a, b)
        && a > b
    {
        sheet.fault(node.span, format!("`{}` has its high end first", key.name), "write `[low, high]`");
    }
}

/// `true` or `false`.
pub(crate) fn flag(sheet: &mut Sheet<'_>, node: &Node, key: &Key) {
    if !matches!(&node.value, Value::Scalar(scalar) if matches!(scalar.plain, Plain::Flag(_))) {
        let message = format!("`{}` is `true` or `false`; here is {}", key.name, kind(node));
        sheet.fault(node.span, message, "write `true` or `false`, without quotes");
    }
}

/// A whole number.
pub(crate) fn count(sheet: &mut Sheet<'_>, node: &Node, least: u32, key: &Key) {
    if parse::count(node).is_none_or(|count| count < least) {
        let message = format!("`{}` is a whole number from {least} to {}", key.name, parse::MOST);
        sheet.fault(node.span, message, example(key));
    }
}

/// A number above nothing, without a unit.
pub(crate) fn factor(sheet: &mut Sheet<'_>, node: &Node, key: &Key) {
    if parse::factor(node).is_none() {
        let message = format!("`{}` is a number above nothing, without a unit", key.name);
        sheet.fault(node.span, message, example(key));
    }
}

/// One of some words.
pub(crate) fn word(sheet: &mut Sheet<'_>, node: &Node, words: &[&str], key: &Key) {
    let Some(text) = node.text().filter(|_| shape::is_text(node)) else {
        let message = format!("`{}` is a word; here is {}", key.name, kind(node));
        sheet.fault(node.span, message, spelling("", words));
        return;
    };
    if !words.contains(&text) {
        sheet.fault(node.span, format!("`{}` can't be `{text}`", key.name), spelling(text, words));
    }
}

/// Text, and what is read from text.
pub(crate) fn text(sheet: &mut Sheet<'_>, node: &Node, wanted: Shape, key: &Key) {
    let Some(text) = node.text().filter(|_| shape::is_text(node)) else {
        let help = match &node.value {
            Value::Scalar(scalar) => format!("put it in quotes when it is a text: `\"{}\"`", scalar.text),
            _ => example(key),
        };
        sheet.fault(node.span, format!("`{}` is a text; here is {}", key.name, kind(node)), help);
        return;
    };
    let wrong = match wanted {
        Shape::Name if has_control(text) => Some(("is not on one line".into(), "write it on one line".into())),
        Shape::Mark => forbidden_mark(text),
        Shape::Id => forbidden_id(text),
        Shape::Colour => unknown_colour(text),
        Shape::Date if parse::date(text).is_none() => {
            Some(("is no date".into(), "write year, month and day: `2026-11-03`".into()))
        }
        Shape::Month if parse::month(text).is_none() => {
            Some(("is no month".into(), "write year and month: `2023-04`".into()))
        }
        Shape::Core => parse::core(text).err(),
        Shape::Fuse if parse::fuse(text).is_none() => Some((
            "is no fuse as found".into(),
            "write `RATING SPEED` (`1 A F`), `RATING`, `blown`, `bridged`, `missing` or `unknown`".into(),
        )),
        _ => None,
    };
    if let Some((message, help)) = wrong {
        sheet.fault(node.span, format!("`{text}` {message}"), help);
    }
}

/// What is wrong, and what to write.
pub(crate) type Wrong = (String, String);

fn has_control(text: &str) -> bool {
    text.chars().any(char::is_control)
}

/// Why a text can't be a mark.
pub(crate) fn forbidden_mark(text: &str) -> Option<Wrong> {
    let reserved = matches!(text, "spare" | "broken" | "unknown" | "none");
    let message = if reserved {
        "is a word of surveys and can't be a mark"
    } else if matches!(text, "park" | "leave") {
        "is a word of packs and can't be a mark: there it says that a core lands on no screw"
    } else if text.starts_with("join ") {
        "can't be a mark: `join …` is how a survey writes cores that are twisted together"
    } else if text.contains(" for ") {
        "can't be a mark: `… for …` is how a survey says whose a core is"
    } else if has_control(text) {
        "is not on one line"
    } else {
        return None;
    };
    Some((message.into(), "write what is printed beside it, or leave the key out".into()))
}

fn forbidden_id(text: &str) -> Option<Wrong> {
    let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if text == "panel" || text == "board" {
        return Some(("is no id: `power: panel` and `power: board` use the word".into(), "write another id".into()));
    }
    if text.chars().all(fits) {
        return None;
    }
    let small = text.to_lowercase();
    let better = small.chars().map(|c| if fits(c) { c } else { '-' }).collect::<String>();
    let better = better.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    let help = format!("use small letters, digits and hyphens only: `{better}`");
    Some(("is no id".into(), help))
}

fn unknown_colour(text: &str) -> Option<Wrong> {
    if wording::colour_code(text).is_some() {
        return None;
    }
    let names: Vec<&str> = wording::COLOURS.iter().map(|(name, _)| *name).collect();
    let help = match wording::nearest_colour(text) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("write {}, or two of them as `green/yellow`", names.join(", ")),
    };
    Some(("is no colour".into(), help))
}
