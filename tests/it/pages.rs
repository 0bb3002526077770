//! Markdown and HTML of packs.

pub(crate) mod demo;
mod hostile;
mod labels;
mod safety;
pub(crate) mod tables;
mod templates;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use demo::{files, text, views};
use sha2::{Digest, Sha256};
use wirelore::pack::Row;
use wirelore::render::{self, Templates};

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

#[test]
fn every_demo_page_is_harmless() {
    for view in views() {
        assert_harmless(&text(&files(&view), "pack.html"));
    }
}

#[test]
fn the_first_line_says_ready_or_not() {
    for view in views() {
        let markdown = text(&files(&view), "pack.md");
        let first = markdown.lines().next().expect("a first line");
        let state = if view.head.ready { "# READY: " } else { "# NOT READY: " };
        assert!(first.starts_with(state), "{first}");
        let html = text(&files(&view), "pack.html");
        let body = html.split("<main>").nth(1).expect("a body").trim_start();
        assert!(body.starts_with("<h1"), "the page too begins with it");
    }
}

#[test]
fn markdown_and_html_hold_the_same_tables() {
    for view in views() {
        let pack = files(&view);
        let (markdown, html) =
            (tables::of_markdown(&text(&pack, "pack.md")), tables::of_html(&text(&pack, "pack.html")));
        assert!(markdown.len() > 20);
        assert_eq!(markdown, html, "{}", view.head.survey);
    }
}

#[test]
fn every_working_is_one_opening_part_under_its_number() {
    for view in views() {
        let html = text(&files(&view), "pack.html");
        assert_eq!(html.matches("<details>").count(), view.whys.len(), "{}", view.head.survey);
        assert!(!html.contains("[^"), "no footnote is left without its definition");
    }
}

#[test]
fn boxes_have_ids_of_their_own() {
    for view in views() {
        let html = text(&files(&view), "pack.html");
        let ids: Vec<String> = tags(&html)
            .into_iter()
            .flat_map(|(_, attributes)| attributes)
            .filter(|(name, _)| name == "id")
            .map(|(_, id)| id)
            .collect();
        let mut once = ids.clone();
        once.sort();
        once.dedup();
        assert_eq!(ids.len(), once.len(), "an id stands once");
        let boxes = html.matches("type=\"checkbox\"").count();
        assert!(boxes > 30 && !tables::words(&html).contains("[ ]"), "{boxes}");
    }
}

#[test]
fn the_same_view_gives_the_same_bytes() {
    let (one, two) = (views(), views());
    for (a, b) in one.iter().zip(&two) {
        assert_eq!(files(a), files(b));
    }
}

#[test]
fn the_index_leads_to_every_pack_and_is_harmless() {
    let rows: Vec<Row> = views().iter().map(Row::of).collect();
    let templates = Templates::embedded().expect("no fault");
    let html = String::from_utf8(render::index(&rows, 3, &templates).expect("no fault")).expect("UTF-8");
    assert_harmless(&html);
    for row in &rows {
        assert!(html.contains(&format!("href=\"{}/pack.html\"", row.survey)));
        assert_eq!(row.first.is_empty(), row.blockers == 0);
    }
    let not_ready = rows.iter().filter(|r| !r.ready).count();
    assert_eq!(html.matches("<strong>NOT READY</strong>").count(), not_ready);
}
