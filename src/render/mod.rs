//! View to Markdown by templates, Markdown to HTML by rewriting its events. Templates hold no arithmetic and no
//! judgement; a word from outside can neither break a table nor become markup.

mod escape;
mod fault;
mod form;
mod frame;
mod gaps;
mod html;
mod index;
mod labels;
mod note;
mod pictures;
mod pocket;
mod sheet;
mod templates;

use crate::draw::{self, Pictures};
use crate::pack::View;
use frame::{Common, Frame, Look};
use serde::Serialize;
use std::collections::BTreeMap;
use tera::Context;

pub use escape::{clean, text as escape_markdown};
pub use fault::TemplateFault;
pub use form::form;
pub use gaps::gaps;
pub use html::{Heading, Page};
pub use index::Index;
pub use pictures::{DRAWING_TYPE, DRAWINGS};
pub use pocket::pocket;
pub use sheet::sheet;
pub use templates::Templates;

/// What every pack's page looks like, but for its foot and its pictures.
const PACK: Look<'_> =
    Look { styles: &["style.css", "labels.css"], drawings: true, pictures: false, script: Some("page.js"), foot: "" };

/// The files of a pack by name: `pack.md`, `pack.html`, `pack.json`, a file in `drawings/` for each drawing and one
/// in `pictures/` for each picture of a note.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn pack(view: &View, templates: &Templates) -> Result<BTreeMap<String, Vec<u8>>, TemplateFault> {
    let pictures = draw::pictures(&view.drawing);
    let markdown = written(view, &pictures, templates)?;
    let mut page = html::page(&markdown, &pictures, &html::within(&view.pictures));
    page.body.push_str(&labels::labels(&view.labels, templates)?);
    let look = Look { pictures: !view.pictures.is_empty(), foot: &title(view), ..PACK };
    let frame = templates.of_packs(|| Common::new(templates, &PACK))?.frame(templates, &look)?;
    let html = templates.page("page.html", &context(&PageContext::new(view, &page, frame))?)?;
    let json = crate::pack::json(view).map_err(|e| TemplateFault::without_place("pack.json", &e.to_string()))?;
    let files = [("pack.md", markdown.into_bytes()), ("pack.html", html.into_bytes()), ("pack.json", json)];
    let drawings = pictures.all().map(|drawing| (pictures::path(drawing), drawing.file().into_bytes()));
    let notes = view.pictures.iter().map(|(name, file)| (name.clone(), file.bytes.clone()));
    Ok(files.into_iter().map(|(name, bytes)| (name.to_string(), bytes)).chain(drawings).chain(notes).collect())
}

/// Makes ready, before the first pack, what all packs need.
///
/// # Errors
/// When a template has a fault.
pub fn prepare(templates: &Templates) -> Result<(), TemplateFault> {
    templates.for_markdown()?;
    templates.of_packs(|| Common::new(templates, &PACK)).map(|_| ())
}

/// A pack as Markdown.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn markdown(view: &View, templates: &Templates) -> Result<String, TemplateFault> {
    written(view, &draw::pictures(&view.drawing), templates)
}

fn written(view: &View, pictures: &Pictures, templates: &Templates) -> Result<String, TemplateFault> {
    let mut context = context(view)?;
    context.insert("pictures", &pictures::Named::new(pictures));
    let text = templates.markdown("pack.md", &context)?;
    Ok(tidy(&text))
}

/// What a pack is called, its state first.
fn title(view: &View) -> String {
    clean(&format!("{}: {}", view.head.state, view.head.site))
}

/// What the page template is given.
#[derive(Serialize)]
struct PageContext<'a> {
    frame: Frame,
    title: String,
    state: &'a str,
    ready: bool,
    site: String,
    survey: &'a str,
    headings: &'a [Heading],
    top: &'a str,
    body: &'a str,
}

impl<'a> PageContext<'a> {
    fn new(view: &'a View, page: &'a Page, frame: Frame) -> Self {
        let head = &view.head;
        Self {
            frame,
            title: title(view),
            state: head.state,
            ready: head.ready,
            site: clean(&head.site),
            survey: &head.survey,
            headings: &page.headings,
            top: &page.top,
            body: &page.body,
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
