//! What differs between two texts, line by line.

use similar::{ChangeTag, TextDiff};

/// Lines that stood in one place, and what stands there now.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changed {
    /// The first of them in the new text, from 1; of lines taken out, the one that now stands there.
    pub line: usize,
    /// What stood there.
    pub old: Vec<String>,
    /// What stands there.
    pub new: Vec<String>,
}

/// Every place where two texts differ, in order.
#[must_use]
pub fn changed(old: &str, new: &str) -> Vec<Changed> {
    let diff = TextDiff::from_lines(old, new);
    let mut out: Vec<Changed> = Vec::new();
    let (mut line, mut open) = (1, false);
    for change in diff.iter_all_changes() {
        if change.tag() == ChangeTag::Equal {
            (line, open) = (line + 1, false);
            continue;
        }
        if !open {
            out.push(Changed { line, ..Changed::default() });
            open = true;
        }
        let text = change.value().trim_end_matches(['\n', '\r']).to_owned();
        let Some(place) = out.last_mut() else { continue };
        if change.tag() == ChangeTag::Delete {
            place.old.push(text);
        } else {
            place.new.push(text);
            line += 1;
        }
    }
    out
}

/// The places where two texts differ as a person reads them: the line's number, `-` what stood there, `+` what stands
/// there.
#[must_use]
pub fn lines(changed: &[Changed]) -> String {
    let with = |sign: &'static str, lines: &[String]| {
        lines.iter().flat_map(|line| [sign, line, "\n"].map(str::to_owned)).collect::<String>()
    };
    let place = |at: &Changed| format!("line {}\n{}{}", at.line, with("- ", &at.old), with("+ ", &at.new));
    changed.iter().map(place).collect()
}
