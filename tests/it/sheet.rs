//! Survey sheets, and the survey files beside them.

mod blanks;
mod form;
mod survey;

use crate::pages::{assert_harmless, demo, tables};
use std::fs;
use std::path::Path;
use wirelore::check::{Known, blank_survey};
use wirelore::model::{Library, Panel};
use wirelore::pack::sheet::{SheetView, Wanted, sheet, usual_cables};
use wirelore::render::{self, Templates};

/// The sheet of a panel, or the generic one.
pub(super) fn view(library: &Library, panel: Option<&Panel>) -> SheetView {
    sheet(&Wanted { library, panel, name: "Something New", board: None, cables: usual_cables(panel) })
}

/// Every panel of the demo library, and none.
pub(super) fn panels(library: &Library) -> Vec<Option<&Panel>> {
    library.panels.values().map(Some).chain([None]).collect()
}

/// The pages of a view: Markdown and HTML.
fn pages(view: &SheetView) -> (String, String) {
    let files = render::sheet(view, &Templates::embedded().expect("no fault")).expect("a sheet fits its templates");
    let text = |name: &str| String::from_utf8(files[name].clone()).expect("pages are UTF-8");
    (text("sheet.md"), text("sheet.html"))
}

#[test]
fn pages_are_harmless_and_hold_the_same_tables() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let (markdown, html) = pages(&view(&library, panel));
        assert_harmless(&html);
        let (of_markdown, of_html) = (tables::of_markdown(&markdown), tables::of_html(&html));
        assert!(of_markdown.len() > 20);
        assert_eq!(of_markdown, of_html);
    }
}

#[test]
fn safety_stands_above_the_first_blank() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let (markdown, _) = pages(&view(&library, panel));
        let top = markdown.split("\n## ").next().expect("a top");
        for words in [
            "Local codes and licensed practice",
            "isolated",
            "head height",
            "shorted",
            "telephone line",
            "Stop and call",
        ] {
            assert!(top.contains(words), "{words}");
        }
        assert!(!top.contains("\n|"), "no blank stands above it");
        let own = panel.map_or(&[][..], |panel| panel.unit.cautions.as_slice());
        assert!(own.iter().all(|caution| view(&library, panel).cautions.iter().any(|line| line.ends_with(caution))));
    }
}

#[test]
fn stages_come_in_the_order_in_which_one_surveys() {
    let (library, _) = demo::library();
    let (markdown, _) = pages(&view(&library, None));
    let stages: Vec<&str> = markdown.lines().filter_map(|line| line.strip_prefix("## ")).collect();
    let order = [
        "1. Before the lid",
        "2. Live volts",
        "3. Dead tests",
        "4. Cable by cable",
        "5. Battery",
        "6. External sounder",
        "7. What else hangs on the panel",
        "8. Decided afterwards",
    ];
    assert_eq!(stages, order);
}

#[test]
fn every_screw_and_fuse_of_the_card_is_there_once() {
    let (library, _) = demo::library();
    for panel in library.panels.values() {
        let (markdown, _) = pages(&view(&library, Some(panel)));
        let part = |from: &str| {
            markdown.split(from).nth(1).and_then(|rest| rest.split("\n#").next()).expect("a part").to_string()
        };
        let rows = |text: &str| text.lines().filter(|line| line.starts_with("| **")).count();
        assert_eq!(rows(&part("### Every screw")), panel.unit.terminals.len(), "{}", panel.unit.id);
        assert_eq!(rows(&part("### Fuses")), panel.unit.fuses.len(), "{}", panel.unit.id);
    }
}

#[test]
fn the_same_sheet_has_the_same_bytes() {
    let (one, two) = (demo::library().0, demo::library().0);
    for (a, b) in panels(&one).into_iter().zip(panels(&two)) {
        assert_eq!(pages(&view(&one, a)), pages(&view(&two, b)));
    }
}

/// One sheet with one cable, byte for byte. `WIRELORE_EXPECT=write cargo test --test it golden` makes it anew.
#[test]
fn golden_sheet() {
    let (mut library, _) = demo::library();
    // A card that comes to the library is no change of the sheet.
    library.devices.retain(|id, _| ["external-sounder", "motion-detector"].contains(&id.as_str()));
    library.boards.retain(|id, _| id == "fennick-f8");
    library.cables.retain(|id, _| ["alarm-4", "alarm-8"].contains(&id.as_str()));
    let panel = library.panels.get("dunmarrow-d3");
    assert!(panel.is_some());
    let view = sheet(&Wanted { library: &library, panel, name: "", board: None, cables: 1 });
    let known = Known { library: &library, panel, board: None, cables: 1 };
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets/dunmarrow-d3");
    for (name, text) in [("sheet.md", pages(&view).0), ("survey.yaml", blank_survey(&known, "dunmarrow-d3"))] {
        let path = folder.join(name);
        if std::env::var_os("WIRELORE_EXPECT").is_some_and(|word| word == "write") {
            fs::create_dir_all(&folder).expect("a folder");
            fs::write(&path, &text).expect("written");
        }
        let golden = fs::read_to_string(&path).unwrap_or_default();
        assert!(golden == text, "{}: read the difference, then WIRELORE_EXPECT=write", path.display());
    }
}
