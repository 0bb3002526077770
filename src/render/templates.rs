//! The templates: embedded in the program, each to be overridden by a file of the same name.

use super::escape;
use super::fault::TemplateFault;
use super::frame::Common;
use super::note::{quoted, quoted_note};
use include_dir::{Dir, include_dir};
use std::collections::BTreeMap;
use std::io::{self, Write};
use std::sync::OnceLock;
use tera::{Context, Filter, Kwargs, State, Tera, Value};

static EMBEDDED: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/templates");

/// The most bytes that a template may write. The pack of the largest site has a hundredth of it.
const LONGEST: usize = 64 << 20;

/// Templates. The user's own are checked at once; the program's are parsed when the first page needs them.
#[derive(Clone)]
pub struct Templates {
    /// All, by file name.
    files: BTreeMap<String, String>,
    markdown: OnceLock<Result<Tera, TemplateFault>>,
    pages: OnceLock<Result<Tera, TemplateFault>>,
    /// What the pages of all packs have in common, made when the first is.
    of_packs: OnceLock<Result<Common, TemplateFault>>,
}

impl std::fmt::Debug for Templates {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_tuple("Templates").field(&self.files.keys()).finish()
    }
}

impl Templates {
    /// The templates of the program.
    ///
    /// # Errors
    /// When one has a fault, which a test of the program rules out.
    pub fn embedded() -> Result<Self, TemplateFault> {
        Self::with(&BTreeMap::new())
    }

    /// The templates of the program, each replaced by the file of the same name in `others`, where there is one.
    /// Files of other names are added, so that a replaced template can include them.
    ///
    /// # Errors
    /// When one has a fault, with its file, line and column.
    pub fn with(others: &BTreeMap<String, String>) -> Result<Self, TemplateFault> {
        let mut files: BTreeMap<String, String> = embedded();
        files.extend(others.iter().map(|(name, text)| (name.clone(), text.clone())));
        let (markdown, pages, of_packs) = (OnceLock::new(), OnceLock::new(), OnceLock::new());
        let templates = Self { files, markdown, pages, of_packs };
        if !others.is_empty() {
            templates.for_markdown()?;
            templates.for_pages()?;
        }
        Ok(templates)
    }

    /// Those of Markdown, parsed once.
    pub(super) fn for_markdown(&self) -> Result<&Tera, TemplateFault> {
        let parse = || {
            let mut markdown = Tera::new();
            markdown.autoescape_on([".md"]);
            markdown.set_escape_fn(escape::markdown);
            markdown.register_filter("figure", Figure);
            markdown.register_filter("quoted", Quoted);
            add(&mut markdown, &self.files, &[".md"])?;
            Ok(markdown)
        };
        self.markdown.get_or_init(parse).as_ref().map_err(Clone::clone)
    }

    /// Those of pages, parsed once.
    fn for_pages(&self) -> Result<&Tera, TemplateFault> {
        let parse = || {
            let mut pages = Tera::new();
            pages.autoescape_on([".html"]);
            add(&mut pages, &self.files, &[".html", ".css", ".js"])?;
            Ok(pages)
        };
        self.pages.get_or_init(parse).as_ref().map_err(Clone::clone)
    }

    /// What the pages of all packs have in common, made once.
    pub(super) fn of_packs(
        &self,
        make: impl FnOnce() -> Result<Common, TemplateFault>,
    ) -> Result<&Common, TemplateFault> {
        self.of_packs.get_or_init(make).as_ref().map_err(Clone::clone)
    }

    /// Renders a Markdown template.
    pub(super) fn markdown(&self, name: &str, context: &Context) -> Result<String, TemplateFault> {
        render(self.for_markdown()?, name, context)
    }

    /// Renders an HTML template.
    pub(super) fn page(&self, name: &str, context: &Context) -> Result<String, TemplateFault> {
        render(self.for_pages()?, name, context)
    }
}

/// Renders a template, as long as it does not write without end.
fn render(tera: &Tera, name: &str, context: &Context) -> Result<String, TemplateFault> {
    let mut bounded = Bounded::default();
    let rendered = tera.render_to(name, context, &mut bounded);
    if bounded.is_full {
        return Err(TemplateFault::without_place(name, "this template writes more than 64 MB"));
    }
    rendered.map_err(|e| TemplateFault::of(&e, name))?;
    String::from_utf8(bounded.written).map_err(|e| TemplateFault::without_place(name, &e.to_string()))
}

/// What a template wrote, up to [`LONGEST`].
#[derive(Default)]
struct Bounded {
    written: Vec<u8>,
    /// Whether it would have written more.
    is_full: bool,
}

impl Write for Bounded {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.written.len() + bytes.len() > LONGEST {
            self.is_full = true;
            return Err(io::ErrorKind::StorageFull.into());
        }
        self.written.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// The templates of the program by file name.
fn embedded() -> BTreeMap<String, String> {
    let files = EMBEDDED.files().filter_map(|file| {
        let name = file.path().file_name()?.to_str()?;
        Some((name.to_string(), file.contents_utf8()?.to_string()))
    });
    files.collect()
}

/// Adds the files with these endings, all at once, so that they may include each other.
fn add(tera: &mut Tera, files: &BTreeMap<String, String>, endings: &[&str]) -> Result<(), TemplateFault> {
    let wanted = files.iter().filter(|(name, _)| endings.iter().any(|end| name.ends_with(end)));
    let list: Vec<(&str, &str)> = wanted.map(|(name, text)| (name.as_str(), text.as_str())).collect();
    tera.add_raw_templates(list).map_err(|e| TemplateFault::of(&e, "templates"))
}

/// `{{ number | figure }}`: its text, and a footnote mark where it was worked out.
struct Figure;

impl Filter<Value, Result<Value, tera::Error>> for Figure {
    fn call(&self, value: Value, _: Kwargs, _: &State) -> Result<Value, tera::Error> {
        let text = value.get_from_path("text").and_then(Value::as_str).map(escape::text);
        let text = text.ok_or_else(|| tera::Error::message("`figure` is for numbers with a text"))?;
        let why = value.get_from_path("why").and_then(Value::as_str);
        let mark = why.map(|label| format!("[^{}]", escape::slug(label))).unwrap_or_default();
        Ok(Value::safe_string(&format!("{text}{mark}")))
    }

    fn is_safe(&self) -> bool {
        true
    }
}

/// `{{ note | quoted }}`: a note's Markdown as a block quote, with its pictures; of `{{ note.text | quoted }}` the words.
struct Quoted;

impl Filter<Value, Result<Value, tera::Error>> for Quoted {
    fn call(&self, value: Value, _: Kwargs, _: &State) -> Result<Value, tera::Error> {
        let text = value.as_str().map(quoted).or_else(|| quoted_note(&value));
        let text = text.ok_or_else(|| tera::Error::message("`quoted` is for notes and for text"))?;
        Ok(Value::safe_string(&text))
    }

    fn is_safe(&self) -> bool {
        true
    }
}
