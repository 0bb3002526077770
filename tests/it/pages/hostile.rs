//! Words that try to break a table, a page or a reader's trust.

use super::demo::{files, library, text, view_of};
use super::{assert_harmless, tables};
use proptest::prelude::*;
use wirelore::check;
use wirelore::model::Note;
use wirelore::pack::PictureFile;
use wirelore::render::{clean, escape_markdown};

/// Words that break tables, begin markup, or hide and reorder text.
fn words() -> Vec<String> {
    let fixed = [
        "a | b || c",
        "`code` ``` fence",
        "one\ntwo\r\nthree\n\n# four",
        "| - | - |",
        "[link](javascript:alert(1)) [ref] [^volts-1] [ ] [x]",
        "![picture](https://example.org/x.png)",
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "</td></table><h1>READY",
        "&lt;b&gt; &amp; &#x41;",
        "**bold** __bold__ *it* _it_ ~~no~~",
        "- list",
        "+ list",
        "1. list",
        "2) list",
        "# heading #",
        "> quote",
        "===",
        "---",
        "trailing \\",
        "{{ head.state }} {% for %} {# note #}",
        "bell\u{7}null\u{0}escape\u{1b}[31m",
        "right\u{202e}tfel\u{202c} \u{2066}isolate\u{2069} \u{200f}mark",
        "zero\u{200b}width\u{feff} soft\u{ad}hyphen",
        "\u{2028}line\u{2029}paragraph\u{85}next",
        "مرحبا שלום 日本語 🔔",
        "\"quoted\" 'single'",
        "http://example.org/auto <https://example.org/auto>",
        "    four spaces",
    ];
    let mut words: Vec<String> = fixed.iter().map(ToString::to_string).collect();
    words.push("x".repeat(500));
    words.push("|`<".repeat(170));
    words
}

#[test]
fn hostile_words_stay_words_in_every_table() {
    let (mut library, surveys) = library();
    let survey = surveys.iter().find(|s| s.survey == "lantern-bakery").expect("the demo survey");
    let words = words();
    let panel = library.panels.get_mut(&survey.panel).expect("its panel");
    while panel.unit.terminals.len() < words.len() {
        let mut more = panel.unit.terminals[0].clone();
        more.mark = format!("X{}", panel.unit.terminals.len());
        panel.unit.terminals.push(more);
    }
    for (terminal, word) in panel.unit.terminals.iter_mut().zip(&words) {
        terminal.does = Some(word.clone());
        terminal.notes = None;
    }
    panel.unit.model = Some(words.join(" "));
    panel.unit.cautions.clone_from(&words);
    let notes = library.notes.remove(&survey.panel);
    let marks: Vec<String> = library.panels[&survey.panel].unit.terminals.iter().map(|t| t.mark.clone()).collect();
    let view = view_of(&library, survey);
    let pack = files(&view);
    let (markdown, html) = (tables::of_markdown(&text(&pack, "pack.md")), tables::of_html(&text(&pack, "pack.html")));
    assert_eq!(markdown, html);
    let table = tables::headed(&markdown, &["Mark", "What it does", "Figures"])[0];
    assert_eq!(table.len(), marks.len() + 1, "one row for each screw");
    for ((row, mark), word) in table[1..].iter().zip(&marks).zip(&words) {
        assert_eq!((row[0].as_str(), row[1].as_str(), row.len()), (mark.as_str(), clean(word).as_str(), 6));
    }
    assert_harmless(&text(&pack, "pack.html"));
    assert!(notes.is_some(), "this panel has notes, taken away here so that they add nothing to the cells");
}

#[test]
fn hostile_words_in_a_survey_change_neither_shape_nor_state() {
    let (library, surveys) = library();
    let survey = surveys.iter().find(|s| s.survey == "ropewalk-store").expect("the demo survey");
    let plain = view_of(&library, survey);
    for word in words() {
        let mut survey = survey.clone();
        survey.site_name = Some(word.clone());
        survey.address = Some(word.clone());
        survey.access = Some(word.clone());
        for cable in &mut survey.cables {
            cable.label = Some(word.clone());
        }
        let pack = files(&view_of(&library, &survey));
        let (md, html) = (text(&pack, "pack.md"), text(&pack, "pack.html"));
        assert_harmless(&html);
        assert!(md.starts_with("# NOT READY: "), "{word:?}");
        let expected = tables::of_markdown(&text(&files(&plain), "pack.md"));
        let shape = |tables: &[tables::Table]| tables.iter().map(|t| (t.len(), t[0].len())).collect::<Vec<_>>();
        assert_eq!(shape(&tables::of_markdown(&md)), shape(&expected), "{word:?}");
        let ids = |html: &str| html.matches("type=\"checkbox\"").count();
        assert_eq!(ids(&html), ids(&text(&files(&plain), "pack.html")), "{word:?}");
    }
}

#[test]
fn a_note_keeps_its_markdown_and_nothing_else() {
    let (mut library, surveys) = library();
    let survey = surveys.iter().find(|s| s.survey == "lantern-bakery").expect("the demo survey");
    let text_of_note = "# Loud\n\n<script>alert(1)</script> <b onclick=x>bold</b>\n\n[bad](javascript:x) [good](https://example.org/a)\n\n\
                        ![p](https://example.org/p.png)\n\n[^volts-1]: **hijacked** nothing\n\n<div>\n\n- **kept**\n\n```\nopen fence";
    let note = Note {
        file: "x.md".into(),
        about: None,
        date: None,
        by: None,
        job: None,
        how: None,
        agrees: None,
        text: text_of_note.into(),
        pictures: Vec::new(),
    };
    library.notes.insert(survey.panel.clone(), vec![note]);
    let pack = files(&view_of(&library, survey));
    let (md, html) = (text(&pack, "pack.md"), text(&pack, "pack.html"));
    assert_harmless(&html);
    assert!(html.contains("<strong>kept</strong>"), "its own Markdown works");
    assert!(html.contains("&lt;script&gt;"), "raw HTML shows as text");
    assert!(html.contains("href=\"https://example.org/a\"") && !html.contains("javascript:"), "only honest links");
    assert!(!html.contains("<summary>hijacked"), "a note can't take the place of a working");
    assert!(!md.contains("\n> <script>"), "not even in the Markdown");
    assert!(html.contains("id=\"sources\""), "an open fence ends with its note");
}

proptest! {
    #[test]
    fn any_text_is_one_cell_that_reads_as_itself(raw in any::<String>()) {
        let markdown = format!("| {} | b |\n|---|---|\n| {} | d |\n", escape_markdown(&raw), escape_markdown(&raw));
        let tables = tables::of_markdown(&markdown);
        prop_assert_eq!(tables.len(), 1);
        prop_assert_eq!(tables[0].len(), 2);
        for row in &tables[0] {
            prop_assert_eq!(row.len(), 2);
            prop_assert_eq!(&row[0], &clean(&raw));
        }
    }

    #[test]
    fn markup_signs_in_any_mixture_stay_signs(raw in "[|`*_<>&#!\\[\\]()\\\\~=+.:^a1 \\-\n]{0,40}") {
        let markdown = format!("- {}\n\n{}\n", escape_markdown(&raw), escape_markdown(&raw));
        let options = pulldown_cmark::Options::all() - pulldown_cmark::Options::ENABLE_SMART_PUNCTUATION;
        let parser = pulldown_cmark::Parser::new_ext(&markdown, options);
        let mut items = 0;
        let mut text = String::new();
        for event in parser {
            match event {
                pulldown_cmark::Event::Start(pulldown_cmark::Tag::Item) => items += 1,
                pulldown_cmark::Event::Text(t) => text.push_str(&t),
                pulldown_cmark::Event::Start(pulldown_cmark::Tag::List(_) | pulldown_cmark::Tag::Paragraph)
                | pulldown_cmark::Event::End(_) => {}
                other => prop_assert!(false, "{:?} from {:?}", other, raw),
            }
        }
        prop_assert_eq!(items, 1);
        prop_assert_eq!(text, clean(&raw).repeat(2));
    }
}

#[test]
fn the_words_of_a_picture_stay_words() {
    let (mut library, surveys) = library();
    let survey = surveys.iter().find(|s| s.survey == "lantern-bakery").expect("the demo survey");
    let text_of_note = "---\ndate: 2026-11-20\n---\n| a |\n|---|\n\
                        | ![a \" onerror=\"x \\] \\| & <script>alert(1)</script> ](lid.png) |\n\n![b](lid.png)";
    let note = check::note(None, "x.md", "2026-11-20-x.md", text_of_note).value.expect("a right note");
    assert_eq!(note.pictures.len(), 2);
    library.notes.insert(survey.panel.clone(), vec![note]);
    let mut view = view_of(&library, survey);
    view.show_pictures(|_, _| Some(PictureFile { media_type: "image/png", bytes: b"\x89PNG".to_vec() }));
    let pack = files(&view);
    let html = text(&pack, "pack.html");
    assert_harmless(&html);
    assert_eq!(html.matches("<img src=\"data:image/png;base64,iVBORw==\" alt=\"").count(), 2, "both are shown");
    assert!(html.contains("alt=\"a &quot; onerror=&quot;x ] | &amp; "), "and their words are words");
    assert_eq!(pack["pictures/note.merrowby-mb6.lid.png"], b"\x89PNG", "one file is enough for both");
}
