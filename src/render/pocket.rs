//! The library in one page that needs nothing else: data for its own script, which a policy lets run alone.

use super::frame::{Frame, Look, plain};
use super::html::{self, Shown, page};
use super::note::quoted_note;
use super::pictures::DRAWING_TYPE;
use super::{TemplateFault, Templates, context};
use crate::draw::Pictures;
use crate::pack::PictureFile;
use crate::pack::notes::NoteView;
use crate::pocket::{Pack, Pocket};
use serde::Serialize;
use std::collections::BTreeMap;
use tera::Value;

/// How many lines stand on a sheet; the script knows it too.
const SHEET: usize = 64;

/// What the page is called.
const TITLE: &str = "The library in a pocket";

/// The page over a library and packs.
///
/// # Errors
/// When a template has a fault, with its file, line and column.
pub fn pocket(pocket: &Pocket, packs: &[Pack], templates: &Templates) -> Result<Vec<u8>, TemplateFault> {
    let mut album = Album::default();
    let shown = album.shown(&pocket.pictures);
    let notes = pocket.notes.iter().map(|note| written(note, &shown).map(|html| json(&html)).unwrap_or_default());
    let notes: Vec<String> = notes.collect();
    let packs: Vec<PackContext> = packs.iter().map(|pack| PackContext::new(pack, &mut album)).collect();
    let look = Look {
        styles: &["style.css", "pocket.css"],
        drawings: false,
        pictures: !album.urls.is_empty(),
        script: Some("pocket.js"),
        foot: TITLE,
    };
    let data = [
        ("habits", plain(&pocket.habits)),
        ("lines", pocket.lines.clone()),
        ("lists", pocket.lists.clone()),
        ("spelled", pocket.spelled.clone()),
        ("places", sheets(&pocket.places)),
        // The script looks for names in these lines as they stand.
        ("cards", pocket.cards.join("\n")),
        ("sayings", plain(&sheets(&pocket.sayings))),
        ("texts", plain(&sheets(&pocket.texts))),
        ("notes", plain(&sheets(&notes))),
        ("figures", plain(&pocket.figures)),
        ("pictures", sheets(&album.urls)),
    ];
    let data = data.into_iter().map(|(id, text)| Data { id, text: safe(&text) }).collect();
    let cards = pocket.cards.len();
    let page = PocketContext { frame: Frame::new(templates, &look)?, title: TITLE, cards, data, packs };
    templates.page("pocket.html", &context(&page)?).map(String::into_bytes)
}

/// A note's Markdown as HTML, quoted as in a pack; `None`: it is a sentence or two, and its words are all there is.
fn written(note: &NoteView, shown: &Shown) -> Option<String> {
    if note.pictures.is_empty() && !note.text.trim().contains(['\n', '*', '_', '`', '[', '#', '|', '\\', '<', '&']) {
        return None;
    }
    let markdown = quoted_note(&Value::try_from_serializable(note).ok()?)?;
    Some(page(&markdown, &Pictures::default(), shown).top)
}

/// The pictures of the page, each once: whatever shows one names its place, and the script fetches it from there.
#[derive(Debug, Default)]
struct Album {
    urls: Vec<String>,
    places: BTreeMap<String, usize>,
}

impl Album {
    /// Takes pictures in, and says for each what shows it.
    fn shown(&mut self, files: &BTreeMap<String, PictureFile>) -> Shown {
        let drawn = |file: &PictureFile| if file.media_type == DRAWING_TYPE { " class=\"drawing\"" } else { "" };
        let mut shown = |file| format!("data-picture=\"{}\"{}", self.place(file), drawn(file));
        files.iter().map(|(address, file)| (address.clone(), shown(file))).collect()
    }

    fn place(&mut self, file: &PictureFile) -> usize {
        let urls = &mut self.urls;
        *self.places.entry(html::url(file)).or_insert_with_key(|url| {
            urls.push(url.clone());
            urls.len() - 1
        })
    }
}

/// What the template is given.
#[derive(Serialize)]
struct PocketContext {
    frame: Frame,
    title: &'static str,
    cards: usize,
    data: Vec<Data>,
    packs: Vec<PackContext>,
}

/// Text that the script reads.
#[derive(Serialize)]
struct Data {
    id: &'static str,
    text: String,
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
    fn new(pack: &Pack, album: &mut Album) -> Self {
        let page = page(&pack.markdown, &Pictures::default(), &album.shown(&pack.pictures));
        Self { survey: pack.survey.clone(), rows: pack.rows.clone(), top: page.top, body: page.body }
    }
}

/// Lines in sheets of so many: the page cuts only those into lines that it shows something of.
fn sheets(lines: &[String]) -> String {
    lines.chunks(SHEET).map(|lines| lines.join("\n")).collect::<Vec<_>>().join("\u{c}")
}

/// Text as a string of JSON.
fn json(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

/// Data inside a script element. In JSON `<` stands only in strings, where it can be written as its number, and nothing
/// else of the data has any: nothing of it then ends the element or opens a comment.
fn safe(data: &str) -> String {
    data.replace('<', "\\u003c")
}

#[cfg(test)]
mod tests {
    use super::{json, safe};

    #[test]
    fn nothing_ends_the_element_that_data_stands_in() {
        let hostile = "</script><!--<script> \u{2028}";
        let data = safe(&json(hostile));
        assert!(!data.contains('<'), "{data}");
        let back: serde_json::Value = serde_json::from_str(&data).unwrap_or_default();
        assert_eq!(back, hostile);
    }
}
