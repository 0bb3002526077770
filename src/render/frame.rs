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

/// What the frames of all pages of a kind have in common: made once, for it is most of a frame's work.
#[derive(Debug, Clone)]
pub(super) struct Common {
    /// The style sheet but for the foot of the sheets.
    style: String,
    /// Its hash, not yet ended.
    hash: Sha256,
    script: String,
    /// The script as a policy names it.
    script_source: String,
}

impl Common {
    /// What pages that look so have in common, whatever stands at their foot.
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
        let script = look.script.map(|name| templates.page(name, &nothing)).transpose()?.unwrap_or_default();
        let (style, script) = (as_read(&style), plain(&as_read(&script)));
        let hash = Sha256::new_with_prefix(style.as_bytes());
        let script_source = source(Sha256::new_with_prefix(script.as_bytes()));
        Ok(Self { style, hash, script, script_source })
    }

    /// The frame of one of these pages: what stands at its foot, and whether pictures are within it, are its own.
    ///
    /// # Errors
    /// When a template has a fault.
    pub(super) fn frame(&self, templates: &Templates, look: &Look) -> Result<Frame, TemplateFault> {
        let foot = context(&Foot { foot: css_string(look.foot) })?;
        let sheets = as_read(&templates.page("sheets.css", &foot)?);
        let style = source(self.hash.clone().chain_update(sheets.as_bytes()));
        let images = if look.pictures { " img-src data:;" } else { "" };
        // Nothing is fetched, nothing is sent, and only this style and this script count.
        let policy = format!(
            "default-src 'none'; style-src {style}; script-src {};{images} base-uri 'none'; form-action 'none'",
            self.script_source
        );
        Ok(Frame { style: format!("{}{sheets}", self.style), script: self.script.clone(), policy })
    }
}

impl Frame {
    /// The frame of a page that looks so.
    ///
    /// # Errors
    /// When a template has a fault.
    pub(super) fn new(templates: &Templates, look: &Look) -> Result<Self, TemplateFault> {
        Common::new(templates, look)?.frame(templates, look)
    }
}

/// A part of a page as a policy names it: by its SHA-256 (Content Security Policy Level 3, section 2.3.1).
fn source(part: Sha256) -> String {
    format!("'sha256-{}'", BASE64_STANDARD.encode(part.finalize()))
}

/// Text as a browser reads it from a file, where every line ends the same way.
fn as_read(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// A script or JSON in plain letters alone, each other one as its number: a browser reads a page of those in one go, and
/// keeps it in half the memory.
pub(super) fn plain(script: &str) -> String {
    let mut plain = String::with_capacity(script.len());
    for letter in script.chars() {
        if letter.is_ascii() {
            plain.push(letter);
            continue;
        }
        for unit in letter.encode_utf16(&mut [0; 2]) {
            // Writing to a string can't fail.
            let _ = write!(plain, "\\u{unit:04x}");
        }
    }
    plain
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
    fn any_letter_comes_back_from_its_number() {
        let text = "4.7 kΩ \u{2028} 🔧 é \\ \"";
        let written = plain(&serde_json::Value::from(text).to_string());
        assert!(written.is_ascii(), "{written}");
        let back: serde_json::Value = serde_json::from_str(&written).unwrap_or_default();
        assert_eq!(back, text);
    }

    #[test]
    fn a_part_is_named_by_its_hash() {
        // FIPS 180-4's example: SHA-256 of "abc".
        assert_eq!(source(Sha256::new_with_prefix("abc")), "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
        assert_eq!(as_read("a\r\nb\rc\n"), "a\nb\nc\n");
    }
}
