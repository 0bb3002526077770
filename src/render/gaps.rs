//! The page beside the index: what the cards that the packs use do not know yet.

use super::frame::{Frame, Look};
use super::{TemplateFault, Templates, clean, context};
use crate::pack::gaps::{GapRow, GapsOfKind, GapsView};
use serde::Serialize;

/// `gaps.html`.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn gaps(view: &GapsView, templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
    let look = Look {
        styles: &["style.css", "index.css"],
        drawings: false,
        pictures: false,
        script: None,
        foot: "What is not known",
    };
    let page = GapsContext {
        frame: Frame::new(templates, &look)?,
        count: view.count,
        surveys: view.surveys,
        date: view.date.as_deref(),
        kinds: view.kinds.iter().map(KindShown::new).collect(),
    };
    templates.page("gaps.html", &context(&page)?).map(String::into_bytes)
}

/// What the template is given.
#[derive(Serialize)]
struct GapsContext<'a> {
    frame: Frame,
    count: usize,
    surveys: usize,
    date: Option<&'a str>,
    kinds: Vec<KindShown<'a>>,
}

/// A kind of gap, its words cleaned of what could reorder or hide text.
#[derive(Serialize)]
struct KindShown<'a> {
    word: &'a str,
    heading: &'a str,
    /// What settles it, in parts of which every second is typed.
    settles: Vec<&'a str>,
    rows: Vec<RowShown>,
}

#[derive(Serialize)]
struct RowShown {
    card: String,
    about: String,
    packs: usize,
    says: String,
}

impl<'a> KindShown<'a> {
    fn new(kind: &'a GapsOfKind) -> Self {
        let settles = kind.settles.split('`').collect();
        Self { word: kind.word, heading: kind.heading, settles, rows: kind.rows.iter().map(RowShown::new).collect() }
    }
}

impl RowShown {
    fn new(row: &GapRow) -> Self {
        Self { card: clean(&row.card), about: clean(&row.about), packs: row.packs, says: clean(&row.says) }
    }
}
