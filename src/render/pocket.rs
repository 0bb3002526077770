//! The library in one page that needs nothing else: data for its own script, which a policy lets run alone.

use super::frame::{Frame, Look};
use super::html::page;
use super::{TemplateFault, Templates, context};
use crate::draw::Pictures;
use crate::pocket::{Pack, Pocket};
use serde::Serialize;
use std::collections::BTreeMap;

/// What the page is called.
const TITLE: &str = "The library in a pocket";

/// The page over a library and packs.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn pocket(pocket: &Pocket, packs: &[Pack], templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
    let look = Look {
        styles: &["style.css", "pocket.css"],
        drawings: false,
        pictures: false,
        script: Some("pocket.js"),
        foot: TITLE,
    };
    let page = PocketContext {
        frame: Frame::new(templates, &look)?,
        title: TITLE,
        index: data(&pocket.index),
        cards: data(&pocket.cards.join("\n")),
        texts: data(&pocket.texts.join("\n")),
        figures: data(&pocket.figures),
        packs: packs.iter().map(PackContext::new).collect(),
    };
    templates.page("pocket.html", &context(&page)?).map(String::into_bytes)
}

/// What the template is given.
#[derive(Serialize)]
struct PocketContext {
    frame: Frame,
    title: &'static str,
    index: String,
    cards: String,
    texts: String,
    figures: String,
    packs: Vec<PackContext>,
}

/// A pack: what can be read in it, and the rows that are to be filled in.
#[derive(Serialize)]
struct PackContext {
    survey: String,
    rows: String,
    top: String,
    body: String,
}

impl PackContext {
    fn new(pack: &Pack) -> Self {
        let page = page(&pack.markdown, &Pictures::default(), &BTreeMap::new());
        Self { survey: pack.survey.clone(), rows: pack.rows.clone(), top: page.top, body: page.body }
    }
}

/// JSON inside a script element: `<` stands only in strings, where it can be written as its number. Nothing of it
/// then ends the element or opens a comment.
fn data(json: &str) -> String {
    json.replace('<', "\\u003c")
}

#[cfg(test)]
mod tests {
    use super::data;

    #[test]
    fn nothing_ends_the_element_that_data_stands_in() {
        let hostile = serde_json::json!(["</script><!--<script>", "\u{2028}"]).to_string();
        let safe = data(&hostile);
        assert!(!safe.contains('<'), "{safe}");
        let back: serde_json::Value = serde_json::from_str(&safe).unwrap_or_default();
        assert_eq!(back, serde_json::json!(["</script><!--<script>", "\u{2028}"]));
    }
}
