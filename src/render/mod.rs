//! View to Markdown by templates, Markdown to HTML by rewriting its events. Templates hold no arithmetic and no
//! judgement; a word from outside can neither break a table nor become markup.

mod escape;
mod fault;
mod html;
mod note;
mod sheet;
mod templates;

use crate::pack::{Row, View};
use serde::Serialize;
use std::collections::BTreeMap;
use tera::Context;

pub use escape::{clean, text as escape_markdown};
pub use fault::TemplateFault;
pub use html::{Heading, Page};
pub use sheet::sheet;
pub use templates::Templates;

/// The files of a pack by name: `pack.md`, `pack.html`, `pack.json`.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn pack(view: &View, templates: &Templates) -> Result<BTreeMap<String, Vec<u8>>, TemplateFault> {
    let markdown = markdown(view, templates)?;
    let page = html::page(&markdown);
    let html = templates.page("page.html", &context(&PageContext::new(view, &page))?)?;
    let json = crate::pack::json(view).map_err(|e| TemplateFault::without_place("pack.json", &e.to_string()))?;
    let files = [("pack.md", markdown.into_bytes()), ("pack.html", html.into_bytes()), ("pack.json", json)];
    Ok(files.into_iter().map(|(name, bytes)| (name.to_string(), bytes)).collect())
}

/// A pack as Markdown.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn markdown(view: &View, templates: &Templates) -> Result<String, TemplateFault> {
    let text = templates.markdown("pack.md", &context(view)?)?;
    Ok(tidy(&text))
}

/// `index.html` over all packs, in the order of `rows`.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn index(rows: &[Row], templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
    let ready = rows.iter().filter(|r| r.ready).count();
    let shown = rows.iter().map(IndexRow::new).collect();
    let context = context(&IndexContext { rows: shown, ready, not_ready: rows.len() - ready })?;
    templates.page("index.html", &context).map(String::into_bytes)
}

/// What the page template is given.
#[derive(Serialize)]
struct PageContext<'a> {
    title: String,
    state: &'a str,
    ready: bool,
    survey: &'a str,
    headings: &'a [Heading],
    top: &'a str,
    body: &'a str,
}

impl<'a> PageContext<'a> {
    fn new(view: &'a View, page: &'a Page) -> Self {
        let head = &view.head;
        Self {
            title: clean(&format!("{}: {}", head.state, head.site)),
            state: head.state,
            ready: head.ready,
            survey: &head.survey,
            headings: &page.headings,
            top: &page.top,
            body: &page.body,
        }
    }
}

/// What the index template is given.
#[derive(Serialize)]
struct IndexContext {
    rows: Vec<IndexRow>,
    ready: usize,
    not_ready: usize,
}

/// A row of the index, its words cleaned of what could reorder or hide text.
#[derive(Serialize)]
struct IndexRow {
    href: String,
    site: String,
    panel: String,
    board: String,
    grade: String,
    ready: bool,
    state: String,
    first: String,
    served: usize,
    unserved: usize,
    blockers: usize,
    warnings: usize,
}

impl IndexRow {
    fn new(row: &Row) -> Self {
        Self {
            href: format!("{}/pack.html", escape::path_segment(&row.survey)),
            site: clean(&row.site),
            panel: clean(&row.panel),
            board: clean(&row.board),
            grade: clean(&row.grade),
            ready: row.ready,
            state: clean(&row.state),
            first: clean(&row.first),
            served: row.served,
            unserved: row.unserved,
            blockers: row.blockers,
            warnings: row.warnings,
        }
    }
}

/// A template's context.
fn context<T: Serialize>(value: &T) -> Result<Context, TemplateFault> {
    Context::from_serialize(value).map_err(|e| TemplateFault::of(&e, "templates"))
}

/// Markdown without trailing spaces and with one empty line at most between blocks.
fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut empty = 1;
    for line in text.lines().map(str::trim_end) {
        empty = if line.is_empty() { empty + 1 } else { 0 };
        if empty < 2 {
            out.push_str(line);
            out.push('\n');
        }
    }
    while out.ends_with("\n\n") {
        out.pop();
    }
    out
}
