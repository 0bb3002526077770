//! Starting files, made from the table of keys.

use super::keys::{self, Block, Key, Shape};
use std::fmt::Write as _;

/// The kinds of file that can be started.
pub const KINDS: [&str; 7] = ["panel", "board", "supply", "device", "cable", "survey", "rules"];

/// The commented starting file of a kind, with every key, what it means and an example; `None` for a word that is
/// no kind. What must be there is filled in or left as a blank to fill; the rest is a comment to take the `#` from.
#[must_use]
pub fn starter(kind: &str, id: &str) -> Option<String> {
    let (block, own) = match kind {
        "panel" => (&keys::PANEL, "id"),
        "board" => (&keys::BOARD, "id"),
        "supply" => (&keys::SUPPLY, "id"),
        "device" => (&keys::DEVICE, "id"),
        "cable" => (&keys::CABLE, "id"),
        "survey" => (&keys::SURVEY, "survey"),
        "rules" => (&keys::RULES, "rules"),
        _ => return None,
    };
    let mut out = String::new();
    let _ = writeln!(
        out,
        "# {}: fill in what is known, leave out what is not. A quantity has its unit.",
        capital(block.name)
    );
    let _ = writeln!(out, "# A line that begins with `#` is not read: take the `#` away to use it.");
    for key in block.keys {
        let value = match key.name {
            "kind" => Some(kind),
            name if name == own => Some(id),
            _ => None,
        };
        line(&mut out, key, value);
    }
    Some(out)
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// A key with what it means; commented out unless it must be there.
fn line(out: &mut String, key: &Key, value: Option<&str>) {
    let none = if key.none { "; `none` when there is none" } else { "" };
    let words = words(key).map(|words| format!("; {words}")).unwrap_or_default();
    let _ = writeln!(out, "\n# {}{words}{none}", key.means);
    if let Some(block) = inner(key.shape) {
        keys_of(out, block, 1);
    }
    match value {
        Some(value) => writeln!(out, "{}: {value}", key.name),
        None if key.required => writeln!(out, "{}:   # for example {}", key.name, key.example),
        None => writeln!(out, "# {}: {}", key.name, key.example),
    }
    .unwrap_or_default();
}

/// What can be written: every word, or an example.
fn shown(key: &Key) -> String {
    words(key).unwrap_or_else(|| format!("for example {}", key.example))
}

/// The words of a key that takes one of several.
pub(super) fn words(key: &Key) -> Option<String> {
    match key.shape {
        Shape::Word(words) if words.len() > 1 => Some(format!("one of {}", words.join(", "))),
        _ => None,
    }
}

/// The block that a shape leads to.
pub(super) fn inner(shape: Shape) -> Option<&'static Block> {
    match shape {
        Shape::Block(block) => Some(block),
        Shape::List(inner, ..) | Shape::Once(inner, ..) | Shape::OneOrMore(inner) | Shape::Map(_, inner) => {
            self::inner(*inner)
        }
        _ => None,
    }
}

/// What the keys of a block mean, one line each, and those of the blocks within it.
fn keys_of(out: &mut String, block: &Block, depth: usize) {
    for key in block.keys {
        let must = if key.required { " (must be there)" } else { "" };
        let none = if key.none { ", or `none`" } else { "" };
        let indent = "  ".repeat(depth);
        let _ = writeln!(out, "# {indent}{}: {}{must}; {}{none}", key.name, key.means, shown(key));
        if let Some(block) = inner(key.shape) {
            keys_of(out, block, depth + 1);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::shape;
    use crate::check::sheet::Sheet;
    use crate::diagnostics::Fault;
    use crate::source;

    const BLOCKS: [&Block; 9] = [
        &keys::PANEL,
        &keys::BOARD,
        &keys::SUPPLY,
        &keys::DEVICE,
        &keys::CABLE,
        &keys::SURVEY,
        &keys::RULES,
        &keys::NOTE,
        &keys::TERMS,
    ];

    /// Holds the example of every key of a block, and of the blocks within it, against the key's own shape.
    fn examples(block: &Block) {
        for key in block.keys {
            let text = format!("{}: {}", key.name, key.example);
            let root = source::read("example", &text).expect("an example is YAML");
            let mut sheet = Sheet::new("example", &text);
            shape::block(&mut sheet, &root, block);
            // Alone it lacks the keys that a block must have, and the one that it goes with.
            let is_of_another =
                |fault: &Fault| ["needs the key", "belongs to"].iter().any(|words| fault.message.contains(words));
            sheet.faults.retain(|fault| !is_of_another(fault));
            assert!(sheet.faults.is_empty(), "{text}: {:?}", sheet.faults);
            assert!(!key.means.is_empty() && key.means.len() < 100, "{}", key.means);
            if let Some(block) = inner(key.shape) {
                examples(block);
            }
        }
    }

    #[test]
    fn every_example_is_right() {
        for block in BLOCKS {
            examples(block);
        }
    }

    #[test]
    fn a_starting_file_shows_every_key() {
        for kind in KINDS {
            let text = starter(kind, "quay-house").expect("a kind");
            let block = BLOCKS.iter().find(|block| block.name.contains(kind)).expect("a block");
            for key in block.keys {
                let shown =
                    text.lines().any(|line| line.trim_start_matches("# ").starts_with(&format!("{}:", key.name)));
                assert!(shown, "{kind}: {}", key.name);
            }
        }
        assert_eq!(starter("library", "x"), None);
    }
}
