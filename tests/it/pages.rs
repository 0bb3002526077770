//! Markdown and HTML of packs.

pub(crate) mod demo;
pub(crate) mod harmless;
mod hostile;
mod labels;
mod safety;
pub(crate) mod tables;
mod templates;

use demo::{files, text, views};
pub(crate) use harmless::{assert_harmless, tags};
use wirelore::pack::Row;
use wirelore::render::{self, Templates};

#[test]
fn every_demo_page_is_harmless() {
    for view in views() {
        assert_harmless(&text(&files(&view), "pack.html"));
    }
}

#[test]
fn the_first_line_says_ready_or_not() {
    for view in views() {
        let markdown = text(&files(&view), "pack.md");
        let first = markdown.lines().next().expect("a first line");
        let state = if view.head.ready { "# READY: " } else { "# NOT READY: " };
        assert!(first.starts_with(state), "{first}");
        let html = text(&files(&view), "pack.html");
        let body = html.split("<main>").nth(1).expect("a body").trim_start();
        assert!(body.starts_with("<h1"), "the page too begins with it");
    }
}

#[test]
fn markdown_and_html_hold_the_same_tables() {
    for view in views() {
        let pack = files(&view);
        let (markdown, html) =
            (tables::of_markdown(&text(&pack, "pack.md")), tables::of_html(&text(&pack, "pack.html")));
        assert!(markdown.len() > 20);
        assert_eq!(markdown, html, "{}", view.head.survey);
    }
}

#[test]
fn every_working_is_one_opening_part_under_its_number() {
    for view in views() {
        let html = text(&files(&view), "pack.html");
        assert_eq!(html.matches("<details>").count(), view.whys.len(), "{}", view.head.survey);
        assert!(!html.contains("[^"), "no footnote is left without its definition");
    }
}

#[test]
fn boxes_have_ids_of_their_own() {
    for view in views() {
        let html = text(&files(&view), "pack.html");
        let ids: Vec<String> = tags(&html)
            .into_iter()
            .flat_map(|(_, attributes)| attributes)
            .filter(|(name, _)| name == "id")
            .map(|(_, id)| id)
            .collect();
        let mut once = ids.clone();
        once.sort();
        once.dedup();
        assert_eq!(ids.len(), once.len(), "an id stands once");
        let boxes = html.matches("type=\"checkbox\"").count();
        assert!(boxes > 30 && !tables::words(&html).contains("[ ]"), "{boxes}");
    }
}

#[test]
fn the_same_view_gives_the_same_bytes() {
    let (one, two) = (views(), views());
    for (a, b) in one.iter().zip(&two) {
        assert_eq!(files(a), files(b));
    }
}

#[test]
fn the_index_leads_to_every_pack_and_is_harmless() {
    let rows: Vec<Row> = views().iter().map(Row::of).collect();
    let templates = Templates::embedded().expect("no fault");
    let mut index = render::Index::default();
    for row in &rows {
        index.add(row);
    }
    let html = String::from_utf8(index.page(3, &templates).expect("no fault")).expect("UTF-8");
    assert_harmless(&html);
    for row in &rows {
        assert!(html.contains(&format!("href=\"{}/pack.html\"", row.survey)));
        assert_eq!(row.first.is_empty(), row.blockers == 0);
    }
    let not_ready = rows.iter().filter(|r| !r.ready).count();
    assert_eq!(html.matches("<strong>NOT READY</strong>").count(), not_ready);
}
