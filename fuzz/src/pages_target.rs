//! Any text wherever a card, a note or a survey may say what it likes: it stays text, and tables keep their shape.

use super::demo::{FILES, LIBRARY};
use super::texts::texts;
use crate::pages::{assert_harmless, demo, tables};
use std::sync::LazyLock;
use wirelore::check;
use wirelore::model::{Library, Note, Survey};
use wirelore::render::{clean, escape_markdown};

/// The demo survey that the texts are put into.
static SURVEY: LazyLock<Survey> = LazyLock::new(|| {
    let surveys = FILES.surveys();
    let small = surveys.iter().filter_map(|file| check::survey(&LIBRARY, file).value);
    small.min_by_key(|survey| survey.cables.len()).expect("a demo survey")
});
/// How many tables its pack has, each with its rows and columns.
static SHAPE: LazyLock<Vec<(usize, usize)>> = LazyLock::new(|| {
    let pack = demo::files(&demo::view_of(&library_with(&[]), &SURVEY));
    shape(&tables::of_markdown(&demo::text(&pack, "pack.md")))
});

/// Makes a pack with these texts in it: the first ones are a note, the words of a card and of the survey; all of them
/// are cells.
pub fn pages(bytes: &[u8]) {
    let texts = texts(bytes);
    for text in &texts {
        stays_a_cell(text);
    }
    let library = library_with(&texts);
    let mut survey = SURVEY.clone();
    let nth = |n: usize| texts.get(n).cloned();
    survey.site_name = nth(3);
    survey.address = nth(4);
    survey.access = nth(2);
    survey.cables.iter_mut().for_each(|cable| cable.label = nth(1));
    let pack = demo::files(&demo::view_of(&library, &survey));
    let (markdown, html) = (demo::text(&pack, "pack.md"), demo::text(&pack, "pack.html"));
    assert_harmless(&html);
    let (markdown, html) = (tables::of_markdown(&markdown), tables::of_html(&html));
    // A note may have tables of its own.
    if !texts.first().is_some_and(|note| note.contains('|')) {
        assert_eq!(markdown, html);
        assert_eq!(shape(&markdown), *SHAPE);
    }
    for (name, bytes) in &pack {
        if name.starts_with("drawings/") {
            let text = String::from_utf8_lossy(bytes).to_lowercase();
            assert!(!text.contains("<script") && !text.contains("javascript:\""), "{name}");
        }
    }
}

fn shape(tables: &[tables::Table]) -> Vec<(usize, usize)> {
    tables.iter().map(|table| (table.len(), table.first().map_or(0, Vec::len))).collect()
}

/// The demo library with a note, and words on the survey's cards.
fn library_with(texts: &[String]) -> Library {
    let mut library = LIBRARY.clone();
    library.notes.clear();
    let nth = |n: usize| texts.get(n).cloned().filter(|text| !text.is_empty());
    let panel = library.panels.get_mut(&SURVEY.panel).expect("its panel");
    let (mark, word) = (panel.unit.terminals[0].mark.clone(), nth(1).unwrap_or_else(|| "word".into()));
    panel.unit.model = Some(nth(2).unwrap_or_else(|| "word".into()));
    panel.unit.cautions = vec![word.clone()];
    panel.unit.terminals.iter_mut().for_each(|terminal| terminal.does = Some(word.clone()));
    for device in library.devices.values_mut() {
        device.does = Some(word.clone());
    }
    let note = |about: Option<String>| Note {
        file: "2026-01-01-x.md".into(),
        about,
        date: None,
        by: nth(1),
        job: nth(2),
        how: None,
        agrees: None,
        pictures: Vec::new(),
        text: nth(0).unwrap_or_else(|| "word".into()),
    };
    library.notes.insert(SURVEY.panel.clone(), vec![note(None), note(Some(mark))]);
    library
}

/// An escaped text is one cell that reads as itself.
fn stays_a_cell(raw: &str) {
    let cell = escape_markdown(raw);
    let read = tables::of_markdown(&format!("| {cell} | b |\n|---|---|\n| {cell} | d |\n"));
    assert_eq!(read.len(), 1);
    for row in &read[0] {
        assert_eq!((row.len(), row[0].as_str()), (2, clean(raw).as_str()));
    }
}
