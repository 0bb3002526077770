//! The keys of a survey, one by one, for those who must have a place for each.

use super::keys::{Block, Key, SURVEY, Shape};
use super::starter::inner;

/// A key that takes a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SurveyKey {
    /// Where it is, from the root: `battery.load.current`.
    pub path: String,
    /// What it says, in one line.
    pub means: &'static str,
    /// The words that it takes; empty when it takes others.
    pub words: &'static [&'static str],
    /// Whether it takes `none`, for *known to be absent*.
    pub none: bool,
}

/// Every key of a survey that takes a value of its own, in the order of the format; of a block that can be `none` the
/// block too. What is read when the job is done is not among them: its blanks are the pack's test sheet.
#[must_use]
pub fn survey_keys() -> Vec<SurveyKey> {
    let mut keys = Vec::new();
    walk(&SURVEY, "", &mut keys);
    keys.retain(|key| !key.path.starts_with("as_left."));
    keys
}

fn walk(block: &Block, above: &str, keys: &mut Vec<SurveyKey>) {
    for key in block.keys {
        let path = format!("{above}{}", key.name);
        let within = inner(key.shape);
        if within.is_none() || key.none {
            keys.push(SurveyKey { path: path.clone(), means: key.means, words: words(key), none: key.none });
        }
        if let Some(within) = within {
            walk(within, &format!("{path}."), keys);
        }
    }
}

fn words(key: &Key) -> &'static [&'static str] {
    match key.shape {
        Shape::Word(words) => words,
        _ => &[],
    }
}
