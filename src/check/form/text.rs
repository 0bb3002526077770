//! The survey's text, a line for each value, with the cell from which each line came.

use super::cells::Place;
use super::tree::{Leaf, Tree, Value};
use std::fmt::Write as _;

/// The text, and for each of its lines where it came from.
pub(super) fn text(root: &Tree, id: &str) -> (String, Vec<Place>) {
    let mut lines = Lines::default();
    lines.line(&format!("# The survey {id}, as its form gives it."), &Place::default());
    lines.block(root, "", "");
    (lines.text, lines.places)
}

#[derive(Default)]
struct Lines {
    text: String,
    places: Vec<Place>,
}

impl Lines {
    fn line(&mut self, text: &str, place: &Place) {
        self.text.push_str(text.trim_end());
        self.text.push('\n');
        self.places.push(place.clone());
    }

    /// A block's keys; `first` stands before the first of them instead of `indent`.
    fn block(&mut self, block: &Tree, first: &str, indent: &str) {
        let mut before = first;
        for (key, value) in &block.entries {
            let key = format!("{before}{}", scalar(key));
            before = indent;
            self.entry(&key, value, indent);
        }
    }

    fn entry(&mut self, key: &str, value: &Value, indent: &str) {
        match value {
            Value::Leaf(leaf) => self.line(&format!("{key}: {}", scalar(&leaf.text)), &leaf.place),
            Value::Block(inner) => {
                self.line(&format!("{key}:"), &place(inner));
                let deeper = format!("{indent}  ");
                self.block(inner, &deeper, &deeper);
            }
            Value::Blocks(blocks) => {
                self.line(&format!("{key}:"), &blocks.first().map(place).unwrap_or_default());
                for block in blocks {
                    self.block(block, &format!("{indent}  - "), &format!("{indent}    "));
                }
            }
            Value::Leaves(leaves) => {
                self.line(&format!("{key}:"), &leaves.first().map(|leaf| leaf.place.clone()).unwrap_or_default());
                for leaf in leaves {
                    self.line(&format!("{indent}  - {}", scalar(&leaf.text)), &leaf.place);
                }
            }
        }
    }
}

/// Where a block begins: at the first value of it that has a place.
fn place(block: &Tree) -> Place {
    let first = block.entries.first().map(|(_, value)| match value {
        Value::Leaf(Leaf { place, .. }) => place.clone(),
        Value::Block(inner) => place(inner),
        Value::Blocks(blocks) => blocks.first().map(place).unwrap_or_default(),
        Value::Leaves(leaves) => leaves.first().map(|leaf| leaf.place.clone()).unwrap_or_default(),
    });
    first.unwrap_or_default()
}

/// A text as YAML reads it back: plain where nothing in it means anything there, else in quotes.
fn scalar(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '.' | '_' | '+' | '-' | '/' | '°' | '²');
    let is_plain = text.starts_with(char::is_alphanumeric) && text.chars().all(plain);
    let is_number = text.parse::<f64>().is_ok();
    let is_word = ["yes", "no", "on", "off", "null", "y", "n"].contains(&text.to_lowercase().as_str());
    if text.is_empty() || (is_plain && !is_number && !is_word) {
        return text.to_string();
    }
    let mut out = String::from('"');
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            c if c.is_control() || matches!(c, '\u{85}' | '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
