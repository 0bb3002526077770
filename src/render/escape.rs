//! Words from outside as Markdown text: whatever they hold, they stay words.

use crate::wording;
use std::io::{Result, Write};

pub use crate::wording::clean;
pub(super) use crate::wording::{escaped as html, visible};

/// Words as an anchor: letters and digits of any script in lower case, hyphens between.
pub(super) fn slug(raw: &str) -> String {
    wording::slug(raw, char::is_alphanumeric)
}

/// Text as Markdown that shows exactly its cleaned self, in a table cell, a list item, a heading or a paragraph.
#[must_use]
pub fn text(raw: &str) -> String {
    if is_plain(raw.as_bytes()) {
        return raw.to_string();
    }
    let clean = clean(raw);
    let mut out = String::with_capacity(clean.len() + 8);
    let number = clean.chars().take_while(char::is_ascii_digit).count();
    for (at, c) in clean.chars().enumerate() {
        let always = c.is_ascii() && is_markup(c as u8);
        let opens_list = at == 0 && (matches!(c, '=' | ':') || (matches!(c, '-' | '+') && opens(&clean)));
        let numbers_list = number > 0 && at == number && matches!(c, '.' | ')') && ends_a_marker(&clean, at + 1);
        if always || opens_list || numbers_list {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

/// Whether a sign of ASCII may be markup wherever it stands.
fn is_markup(sign: u8) -> bool {
    matches!(
        sign,
        b'\\' | b'`' | b'*' | b'_' | b'[' | b']' | b'<' | b'>' | b'|' | b'~' | b'&' | b'#' | b'^' | b'$' | b'{'
    )
}

/// Whether text is Markdown for itself beyond doubt, as most text is: it begins with a letter, and is clean.
fn is_plain(raw: &[u8]) -> bool {
    raw.first().is_some_and(u8::is_ascii_alphabetic)
        && wording::is_clean(raw)
        && !raw.iter().any(|byte| is_markup(*byte))
}

/// Whether a list marker would end before this place: there is a space, or nothing more.
fn ends_a_marker(text: &str, at: usize) -> bool {
    text.chars().nth(at).is_none_or(|c| c == ' ')
}

/// Whether a first `-` or `+` would open a list or underline a heading: a space or nothing follows it, or more of it.
fn opens(text: &str) -> bool {
    text.chars().nth(1).is_none_or(|c| matches!(c, ' ' | '-' | '+' | '='))
}

/// [`text`] as the template engine calls it.
pub(super) fn markdown(raw: &str, out: &mut dyn Write) -> Result<()> {
    if is_plain(raw.as_bytes()) {
        return out.write_all(raw.as_bytes());
    }
    out.write_all(text(raw).as_bytes())
}

/// One segment of a relative address: anything but letters, digits, `-`, `_` and `.` is written in per cent.
pub(super) fn path_segment(raw: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.');
    let written =
        raw.bytes().map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") });
    written.collect::<Vec<_>>().concat()
}
