//! What a page may hold: nothing that runs, loads, or leads anywhere but where a person would follow it.

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};

/// Tags that a page may hold.
const TAGS: &[&str] = &[
    "!doctype",
    "a",
    "blockquote",
    "body",
    "button",
    "code",
    "col",
    "colgroup",
    "details",
    "div",
    "em",
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "head",
    "header",
    "html",
    "input",
    "label",
    "form",
    "option",
    "select",
    "li",
    "main",
    "meta",
    "nav",
    "ol",
    "p",
    "pre",
    "section",
    "span",
    "strong",
    "summary",
    "table",
    "tbody",
    "td",
    "th",
    "thead",
    "title",
    "tr",
    "ul",
    "wbr",
    "br",
    "hr",
    "figure",
    "figcaption",
    "img",
    // Drawings.
    "svg",
    "g",
    "desc",
    "path",
    "rect",
    "circle",
    "ellipse",
    "text",
];

/// Attributes that a page may hold.
const ATTRIBUTES: &[&str] = &[
    "aria-label",
    "autocomplete",
    "charset",
    "alt",
    "class",
    "colspan",
    "content",
    "data-parts",
    "data-survey",
    "data-why",
    "hidden",
    "href",
    "html",
    "http-equiv",
    "id",
    "lang",
    "name",
    "role",
    "scope",
    "src",
    "start",
    "style",
    "tabindex",
    "type",
    // Drawings.
    "aria-labelledby",
    "cx",
    "cy",
    "d",
    "height",
    "r",
    "role",
    "rx",
    "ry",
    "viewbox",
    "width",
    "x",
    "y",
    "value",
];

/// Every tag of a page: its name and its attributes.
pub(crate) fn tags(html: &str) -> Vec<(String, Vec<(String, String)>)> {
    let mut found = Vec::new();
    for part in html.split('<').skip(1) {
        let inner = part.split('>').next().unwrap_or_default().trim_end_matches('/');
        let (name, rest) = inner.split_once([' ', '\n']).unwrap_or((inner, ""));
        found.push((name.trim_start_matches('/').to_lowercase(), attributes(rest)));
    }
    found
}

fn attributes(text: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let (name, after) = rest.split_once('=').unwrap_or((rest, ""));
        let value = after.strip_prefix('"').and_then(|v| v.split_once('"'));
        let (value, after) = value.unwrap_or(("", ""));
        found.push((name.trim().to_lowercase(), value.to_string()));
        rest = after.trim();
    }
    found
}

/// A page without its own style and, where it has one, its script, each of which is named by the page's policy.
fn without_frame(html: &str) -> String {
    let mut rest = html.to_string();
    for name in ["style", "script"] {
        let Some((before, after)) = rest.split_once(&format!("<{name}>")) else { continue };
        let (own, after) = after.split_once(&format!("</{name}>")).expect("it ends");
        let source = format!("{name}-src 'sha256-{}'", BASE64_STANDARD.encode(Sha256::digest(own.as_bytes())));
        assert!(before.contains(&source) || after.contains(&source), "the policy does not name the page's {name}");
        rest = format!("{before}{after}");
    }
    rest
}

/// Nothing on a page can run, load or lead anywhere but where a person would follow it.
pub(crate) fn assert_harmless(html: &str) {
    assert!(!html.contains("url(") && !html.contains("@import"), "a page asks for nothing from outside");
    let html = &without_frame(html);
    for (name, attributes) in tags(html) {
        assert!(TAGS.contains(&name.as_str()), "<{name}>");
        for (attribute, value) in attributes {
            assert!(ATTRIBUTES.contains(&attribute.as_str()), "<{name} {attribute}=\"{value}\">");
            if attribute == "href" {
                let ok = ["#", "http://", "https://", "mailto:", "tel:"].iter().any(|s| value.starts_with(s));
                let is_ours = value.ends_with("/pack.html") || ["gaps.html", "index.html"].contains(&value.as_str());
                assert!(ok || is_ours, "{value}");
            }
            if attribute == "src" {
                assert!(name == "img" && value.starts_with("data:image/png;base64,"), "{value}");
            }
        }
    }
}
