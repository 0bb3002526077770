//! Markdown to HTML by rewriting its events. Raw HTML becomes text, only links that a person would follow survive,
//! a footnote becomes an opening row under the row that points to it, `[ ]` a box to tick, an image of a drawing or a
//! picture the thing itself, and a wide table scrolls inside itself.

mod figures;
mod footnotes;
mod links;
mod photos;
mod sections;
mod table;
mod ticks;
mod writer;

use crate::draw::Pictures;
use figures::Figures;
use photos::Photos;
pub(super) use photos::{Shown, url, within};
use serde::Serialize;

/// The body of a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// What stands before the first heading of the second level.
    pub top: String,
    /// The rest.
    pub body: String,
    /// The headings of the second level, for the list at the top.
    pub headings: Vec<Heading>,
}

/// A heading that can be jumped to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Heading {
    /// Its id in the page.
    pub id: String,
    /// Its words.
    pub title: String,
}

/// The body of a page for `markdown`, with its drawings and with the pictures of notes by the addresses of their images.
#[must_use]
pub(super) fn page(markdown: &str, drawings: &Pictures, pictures: &Shown) -> Page {
    let (mut events, notes) = footnotes::split(markdown);
    writer::Writer::new(markdown, notes, Figures::new(drawings), Photos::new(pictures)).page(&mut events)
}
