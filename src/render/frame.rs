//! What a page is set in: its style, its script, and the policy that lets nothing else run or load. A page is one file
//! without an address of its own, so the policy names its style and its script by what they say.

use super::fault::TemplateFault;
use super::templates::Templates;
use super::{clean, context};
use crate::draw;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// As many characters of a title fit at the foot of a sheet.
const FOOT: usize = 72;

/// The parts of a page that are not its words.
#[derive(Debug, Serialize)]
pub(super) struct Frame {
    /// The style sheet, as it stands in the page.
    style: String,
    /// The script, as it stands in the page.
    script: String,
    /// The content security policy.
    policy: String,
}

/// What a page looks like, and what works on it.
#[derive(Debug)]
pub(super) struct Look<'a> {
    /// The style sheets, in order.
    pub(super) styles: &'a [&'a str],
    /// Whether drawings are on it.
    pub(super) drawings: bool,
    /// Whether pictures are within it.
    pub(super) pictures: bool,
    /// The script, where something works.
    pub(super) script: Option<&'a str>,
    /// What stands at the foot of every sheet of paper.
    pub(super) foot: &'a str,
}

/// What the style of the sheets is given.
#[derive(Serialize)]
struct Foot {
    foot: String,
}

impl Frame {
    /// The frame of a page that looks so.
    ///
    /// # Errors
    /// When a template has a fault.
    pub(super) fn new(templates: &Templates, look: &Look) -> Result<Self, TemplateFault> {
        let nothing = tera::Context::new();
        let mut style = String::new();
        for name in look.styles {
            style.push_str(&templates.page(name, &nothing)?);
        }
        if look.drawings {
            style.push_str(&draw::style());
        }
        let foot = context(&Foot { foot: css_string(look.foot) })?;
        style.push_str(&templates.page("sheets.css", &foot)?);
        let script = look.script.map(|name| templates.page(name, &nothing)).transpose()?.unwrap_or_default();
        let (style, script) = (as_read(&style), as_read(&script));
        let policy = policy(&style, &script, look.pictures);
        Ok(Self { style, script, policy })
    }
}

/// Nothing is fetched, nothing is sent, and only this style and this script count. Pictures are those within the page.
fn policy(style: &str, script: &str, pictures: bool) -> String {
    let images = if pictures { " img-src data:;" } else { "" };
    format!(
        "default-src 'none'; style-src {}; script-src {};{images} base-uri 'none'; form-action 'none'",
        source(style),
        source(script)
    )
}

/// A part of a page as a policy names it: by its SHA-256 (Content Security Policy Level 3, section 2.3.1).
fn source(part: &str) -> String {
    format!("'sha256-{}'", BASE64_STANDARD.encode(Sha256::digest(part.as_bytes())))
}

/// Text as a browser reads it from a file, where every line ends the same way.
fn as_read(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// Words as a string of a style sheet. All but letters, digits and spaces is written as its number and the space that
/// ends it, so that nothing in it can end the string or the sheet.
fn css_string(raw: &str) -> String {
    let clean = clean(raw);
    let mut out = String::from('"');
    for c in clean.chars().take(FOOT) {
        if c.is_alphanumeric() || c == ' ' {
            out.push(c);
        } else {
            let _ = write!(out, "\\{:X} ", u32::from(c));
        }
    }
    if clean.chars().count() > FOOT {
        out.push_str("\\2026 ");
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_word_ends_the_string_it_stands_in() {
        assert_eq!(css_string("Net Loft 2"), "\"Net Loft 2\"");
        assert_eq!(css_string("a\"; }</style>\\"), "\"a\\22 \\3B  \\7D \\3C \\2F style\\3E \\5C \"");
        assert_eq!(css_string(&"x".repeat(100)), format!("\"{}\\2026 \"", "x".repeat(FOOT)));
    }

    #[test]
    fn a_part_is_named_by_its_hash() {
        // FIPS 180-4's example: SHA-256 of "abc".
        assert_eq!(source("abc"), "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
        assert_eq!(as_read("a\r\nb\rc\n"), "a\nb\nc\n");
    }
}
