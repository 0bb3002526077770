//! How a single value is written: plain where YAML takes it for nothing else, else in quotes. Readers of older YAML
//! take more words for numbers, dates and truths than newer ones; what any of them would take so is quoted.

use crate::check::Shape;
use std::fmt::Write as _;

/// How a single value is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Style {
    /// Without quotes, where that is safe.
    Plain,
    /// In single quotes.
    Single,
    /// In double quotes.
    Double,
}

impl Style {
    /// The style of a value as it stands in a file.
    pub(super) fn of(written: &str) -> Self {
        match written.chars().next() {
            Some('"') => Self::Double,
            Some('\'') => Self::Single,
            _ => Self::Plain,
        }
    }
}

/// How a card usually writes such a value: sentences in double quotes, everything else plain.
pub(super) fn usual(text: &str, shape: Shape) -> Style {
    let is_words = matches!(shape, Shape::Text | Shape::Name | Shape::OneOrMore(Shape::Text)) && text.contains(' ');
    if is_words { Style::Double } else { Style::Plain }
}

/// A single value in this style, in double quotes where the style can't hold it.
pub(super) fn scalar(text: &str, shape: Shape, style: Style) -> String {
    let is_single = style == Style::Single && !text.chars().any(char::is_control);
    match style {
        Style::Plain if is_plain(text, shape) => text.to_owned(),
        Style::Single if is_single => format!("'{}'", text.replace('\'', "''")),
        _ => doubled(text),
    }
}

/// In double quotes, what is special written with a backslash.
fn doubled(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => out.extend(['\\', letter]),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if u32::from(c) < 0x20 || (0x7f..0xa0).contains(&u32::from(c)) => {
                let _ = write!(out, "\\x{:02x}", u32::from(c));
            }
            // Readers take these for line ends or leave them out.
            '\u{2028}' | '\u{2029}' | '\u{feff}' => {
                let _ = write!(out, "\\u{:04x}", u32::from(letter));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// Whether every reader takes the text without quotes for what it is.
fn is_plain(text: &str, shape: Shape) -> bool {
    match shape {
        Shape::Flag => matches!(text, "true" | "false"),
        Shape::Count(_) | Shape::Factor => {
            text.parse::<f64>().is_ok() && text.starts_with(|c: char| c.is_ascii_digit())
        }
        Shape::Date => text.bytes().all(|b| b.is_ascii_digit() || b == b'-'),
        _ => is_plain_text(text),
    }
}

fn is_plain_text(text: &str) -> bool {
    let fits = |c: char| c.is_alphanumeric() || " +-/._°Ω%();".contains(c);
    let mut letters = text.chars();
    let first = letters.next().is_some_and(|c| c.is_alphanumeric() || "+-/".contains(c));
    let second = letters.next();
    let begins = first && !(text.starts_with('-') && second.is_none_or(|c| c == ' ' || c == '-'));
    begins && text.chars().all(fits) && !text.ends_with(' ') && !is_word_of_yaml(text) && !is_number(text)
}

fn is_word_of_yaml(text: &str) -> bool {
    matches!(text.to_lowercase().as_str(), "yes" | "no" | "on" | "off" | "true" | "false" | "null")
}

/// Whether some reader would take it for a number or a date: `1`, `+3`, `0x1f`, `1e3`, `2026-11-03`, `.5`.
fn is_number(text: &str) -> bool {
    let digits = text.trim_start_matches(['+', '-']);
    let based = ["0x", "0o", "0b"].iter().any(|base| digits.to_lowercase().starts_with(base));
    let begins = digits.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let named = matches!(digits.to_lowercase().as_str(), ".inf" | ".nan");
    let ends = digits.ends_with(|c: char| c.is_ascii_digit() || "._".contains(c));
    named || based || (begins && ends && digits.chars().all(|c| c.is_ascii_digit() || "._:eE+- ".contains(c)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_yaml_would_take_for_something_else_is_quoted() {
        for text in ["yes", "No", "1", "+3", "1e3", "0x1F", "2026-11-03", "-", "- a", "---", "a: b", "a #b", "", " a"] {
            assert!(scalar(text, Shape::Mark, Style::Plain).starts_with('"'), "{text}");
        }
        for text in ["A+", "-A", "AUX-", "4k7", "13.7 V", "1 A", "S+", "5x20", "Z1C", "0.22 mm2", "5 %"] {
            assert_eq!(scalar(text, Shape::Mark, Style::Plain), text);
        }
        assert_eq!(scalar("2026-11-03", Shape::Date, Style::Plain), "2026-11-03");
        assert_eq!(scalar("true", Shape::Flag, Style::Plain), "true");
        assert_eq!(scalar("7", Shape::Count(0), Style::Plain), "7");
    }

    #[test]
    fn quotes_hold_anything() {
        assert_eq!(scalar("it's", Shape::Text, Style::Single), "'it''s'");
        assert_eq!(scalar("a \"b\" \\ \n\u{7}", Shape::Text, Style::Double), "\"a \\\"b\\\" \\\\ \\n\\x07\"");
        assert_eq!(scalar("a\nb", Shape::Text, Style::Single), "\"a\\nb\"");
    }
}
