//! A survey sheet as Markdown and as a page to print.

use super::fault::TemplateFault;
use super::frame::{Frame, Look};
use super::html::{self, Heading};
use super::{Templates, clean, context, tidy};
use crate::draw::Pictures;
use crate::pack::sheet::SheetView;
use serde::Serialize;
use std::collections::BTreeMap;

/// What the Markdown template is given.
#[derive(Serialize)]
struct SheetContext<'a> {
    sheet: &'a SheetView,
}

/// What the page template is given.
#[derive(Serialize)]
struct PageContext<'a> {
    frame: Frame,
    title: String,
    headings: &'a [Heading],
    top: &'a str,
    body: &'a str,
}

/// The files of a survey sheet by name: `sheet.md`, `sheet.html`.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn sheet(view: &SheetView, templates: &Templates) -> Result<BTreeMap<String, Vec<u8>>, TemplateFault> {
    let markdown = tidy(&templates.markdown("sheet.md", &context(&SheetContext { sheet: view })?)?);
    let page = html::page(&markdown, &Pictures::default());
    let title = clean(&format!("Survey sheet: {}", view.title));
    // Nothing of a blank sheet is kept: the next site is another one.
    let look = Look { styles: &["style.css", "sheet.css"], drawings: false, script: None, foot: &title };
    let frame = Frame::new(templates, &look)?;
    let given = PageContext { frame, title, headings: &page.headings, top: &page.top, body: &parted(&page.body) };
    let html = templates.page("sheet.html", &context(&given)?)?;
    let files = [("sheet.md", markdown.into_bytes()), ("sheet.html", html.into_bytes())];
    Ok(files.into_iter().map(|(name, bytes)| (name.to_string(), bytes)).collect())
}

/// The page's body with everything under a heading of the third level in a box of its own, which paper keeps on one
/// page. The body is our own HTML: words from outside have no tags left in it.
fn parted(body: &str) -> String {
    let mut out = String::with_capacity(body.len() + 512);
    let mut open = false;
    let mut rest = body;
    while let Some(at) = next_heading(rest) {
        let (before, after) = rest.split_at(at);
        out.push_str(before);
        if open {
            out.push_str("</div>\n");
        }
        open = after.starts_with("<h3");
        if open {
            out.push_str("<div class=\"part\">");
        }
        let (tag, after) = after.split_at(3);
        out.push_str(tag);
        rest = after;
    }
    out.push_str(rest);
    if open {
        out.push_str("</div>\n");
    }
    out
}

/// Where the next heading of the second or third level begins.
fn next_heading(html: &str) -> Option<usize> {
    [html.find("<h2"), html.find("<h3")].into_iter().flatten().min()
}
