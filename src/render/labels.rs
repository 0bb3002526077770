//! The page of labels at the end of a pack: what the Markdown has as a table, paper has as labels to cut out.

use super::fault::TemplateFault;
use super::{Templates, clean, context};
use crate::pack::labels::Label;
use serde::Serialize;

/// What the template is given.
#[derive(Serialize)]
struct LabelsContext {
    labels: Vec<Shown>,
}

/// A label, its words cleaned of what could reorder or hide text.
#[derive(Serialize)]
struct Shown {
    cable: String,
    code: String,
    word: String,
    from: String,
    to: String,
}

impl Shown {
    fn new(label: &Label) -> Self {
        Self {
            cable: clean(&label.cable),
            code: clean(&label.core.code),
            word: clean(&label.core.word),
            from: clean(&label.from),
            to: clean(&label.to),
        }
    }
}

/// The labels as HTML; nothing when there are none.
pub(super) fn labels(labels: &[Label], templates: &Templates) -> Result<String, TemplateFault> {
    if labels.is_empty() {
        return Ok(String::new());
    }
    let given = LabelsContext { labels: labels.iter().map(Shown::new).collect() };
    templates.page("labels.html", &context(&given)?)
}
