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
    let page = html::page(&markdown, &Pictures::default(), &html::Shown::new());
    let title = clean(&format!("Survey sheet: {}", view.title));
    // Nothing of a blank sheet is kept: the next site is another one.
    let look =
        Look { styles: &["style.css", "sheet.css"], drawings: false, pictures: false, script: None, foot: &title };
    let frame = Frame::new(templates, &look)?;
    let given = PageContext { frame, title, headings: &page.headings, top: &page.top, body: &page.body };
    let html = templates.page("sheet.html", &context(&given)?)?;
    let files = [("sheet.md", markdown.into_bytes()), ("sheet.html", html.into_bytes())];
    Ok(files.into_iter().map(|(name, bytes)| (name.to_string(), bytes)).collect())
}
