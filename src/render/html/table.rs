//! A table while it is written.

use super::footnotes::Placed;
use crate::render::escape;
use pulldown_cmark::{Event, Tag, TagEnd};

/// A table while it is written.
#[derive(Debug, Default)]
pub(super) struct Table {
    /// How many columns it has.
    pub(super) columns: usize,
    /// The footnotes that the current row points to.
    pub(super) pointed: Vec<String>,
    /// The words of the current row's cells so far.
    pub(super) words: String,
}

impl Table {
    /// What stands after it.
    pub(super) const CLOSE: &'static str = "</div>\n";

    /// What stands before a table under the heading `title`: a box in which it scrolls, which the keyboard reaches too.
    pub(super) fn open(title: &str) -> String {
        let label = escape::html(&escape::clean(title));
        format!("<div class=\"table\" role=\"group\" aria-label=\"Table: {label}\" tabindex=\"0\">")
    }

    /// The columns by the words of their heads, so that the style can give each the room it needs; `ahead` is what
    /// follows the table's beginning.
    pub(super) fn columns(ahead: &[Placed]) -> String {
        let mut out = String::from("<colgroup>");
        let mut words = String::new();
        for (event, _) in ahead {
            match event {
                Event::Start(Tag::TableCell) => words.clear(),
                Event::Text(text) => words.push_str(text),
                Event::End(TagEnd::TableCell) => out.push_str(&column(&words)),
                Event::End(TagEnd::TableHead) => break,
                _ => {}
            }
        }
        out + "</colgroup>"
    }

    /// An opening row under the current one.
    pub(super) fn opening_row(&self, details: &str) -> String {
        format!("<tr class=\"why\"><td colspan=\"{}\">{details}</td></tr>\n", self.columns)
    }
}

/// A column with these words at its head.
fn column(words: &str) -> String {
    match escape::slug(words) {
        class if class.is_empty() => "<col>".into(),
        class => format!("<col class=\"{}\">", escape::html(&class)),
    }
}
