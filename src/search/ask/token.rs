//! A question's words, one by one.

use super::words::{is_filler, is_weak, kind};
use crate::search::mark::{self, Key, Sign};
use crate::search::text::{compact, name_key, pieces};
use crate::search::vocabulary::Vocabulary;
use tantivy::TantivyError;

/// Words past this many are not looked at.
const MOST: usize = 48;
/// Longer words are not looked at.
const LONGEST: usize = 200;

/// A word of a question.
#[derive(Debug, Clone)]
pub(super) struct Token {
    /// As it was typed.
    pub(super) typed: String,
    /// What it may have been meant to be, when nothing is spelled like it; else itself, signs written as signs.
    pub(super) texts: Vec<String>,
    /// The mark that it may be.
    pub(super) key: Key,
    /// The sign, when it says nothing else.
    pub(super) said: Option<Sign>,
    /// Whether it is not as it was typed.
    pub(super) is_slip: bool,
    /// It was typed with a capital letter or a digit, so it may be a mark and not a filler.
    pub(super) is_like_mark: bool,
}

impl Token {
    /// As it is read.
    pub(super) fn text(&self) -> &str {
        self.texts.first().map_or("", String::as_str)
    }
}

/// The words of a question, those that nothing is spelled like with what they may have been meant to be.
pub(super) fn tokens(vocabulary: &Vocabulary<'_>, question: &str) -> Result<Vec<Token>, TantivyError> {
    let mut tokens = Vec::new();
    for typed in question.split_whitespace().filter(|word| word.len() <= LONGEST).take(MOST) {
        let mut token = token(typed);
        if token.said.is_none() && !is_known(vocabulary, &token)? {
            let meant = vocabulary.slips(&name_key(typed))?;
            if !meant.is_empty() {
                token.texts = meant;
                token.is_slip = true;
            }
        }
        tokens.push(token);
    }
    Ok(tokens)
}

fn token(typed: &str) -> Token {
    let trimmed = typed.trim_matches(|c: char| !c.is_alphanumeric() && !matches!(mark::one_dash(c), '+' | '-'));
    let inner = if trimmed.is_empty() { typed } else { trimmed };
    let printed = mark::printed(inner);
    let said = Sign::said(&printed);
    // Any dash is a minus, and `+ve` a plus.
    let mut text: String = inner.chars().map(mark::one_dash).collect();
    if printed.ends_with("+ve") || printed.ends_with("-ve") {
        text.truncate(text.len().saturating_sub(2));
    }
    let text = said.map_or(text, |sign| sign.symbol().to_string());
    Token {
        typed: inner.to_string(),
        key: mark::key(&text),
        texts: vec![text],
        said,
        is_slip: false,
        is_like_mark: typed.chars().any(|c| c.is_uppercase() || c.is_numeric()),
    }
}

/// Whether anything is spelled like a word.
fn is_known(vocabulary: &Vocabulary<'_>, token: &Token) -> Result<bool, TantivyError> {
    let fields = vocabulary.fields;
    let word = name_key(token.text());
    if is_filler(&word) || is_weak(&word) || kind(&word).is_some() || vocabulary.lexicon.has(&compact(token.text())) {
        return Ok(true);
    }
    for (field, text) in
        [(fields.spelled, &word), (fields.of, &word), (fields.name, &word), (fields.base, &token.key.base)]
    {
        if vocabulary.has(field, text)? {
            return Ok(true);
        }
    }
    // `chirping` is no slip where a note says `chirped`.
    for form in pieces(token.text()).into_iter().flat_map(|piece| piece.forms) {
        for field in [fields.does, fields.told, fields.extra, fields.context] {
            if vocabulary.has(field, &form)? {
                return Ok(true);
            }
        }
    }
    Ok(false)
}
