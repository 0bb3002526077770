//! The form: every blank of the sheet in a spreadsheet, and read back.

mod fill;
mod hostile;

use super::panels;
use crate::pages::demo;
use fill::filled;
use std::collections::BTreeSet;
use wirelore::check::{self, FormSurvey, form_survey, survey_keys};
use wirelore::model::{Library, Panel, Survey};
use wirelore::pack::sheet::form::{FormView, form};
use wirelore::pack::sheet::{Wanted, usual_cables};
use wirelore::render;
use wirelore::source::{Files, SourceFile, read, workbook};

/// A survey that has every key.
const EVERY_KEY: &str = include_str!("every-key.yaml");

/// The blank form of a panel.
fn blank(library: &Library, panel: Option<&Panel>) -> FormView {
    form(&Wanted { library, panel, name: "Something New", board: None, cables: usual_cables(panel) })
}

/// What a form says, read back from its bytes.
fn read_back(library: &Library, view: &FormView, id: &str) -> FormSurvey {
    let bytes = render::form(view).expect("a form can be written");
    form_survey(library, &workbook(&bytes).expect("a form can be read"), id)
}

fn survey(library: &Library, text: &str) -> Survey {
    let source = SourceFile { path: "survey.yaml".into(), bytes: Ok(text.as_bytes().to_vec()), in_library: false };
    let checked = check::survey(library, &source);
    checked.value.unwrap_or_else(|| panic!("{:?}\n{text}", checked.faults))
}

/// A survey as text, its items in the order of their names: a form gives kept items in the order of their cables.
fn comparable(mut survey: Survey) -> String {
    survey.fit.sort_by(|a, b| a.item.cmp(&b.item));
    survey.remove.sort();
    survey.readings.sort_by(|a, b| a.0.cmp(&b.0));
    survey.fuses.sort_by(|a, b| a.0.cmp(&b.0));
    // What is read after the work comes from the page for the pocket: the form has no place for it.
    survey.as_left.clear();
    for cable in &mut survey.cables {
        cable.cores.sort_by(|a, b| a.colour.cmp(&b.colour));
    }
    format!("{survey:#?}")
}

/// Fills a survey's text into the form of its panel, reads that back, and holds both against each other.
fn round_trip(library: &Library, text: &str) {
    let root = read("survey.yaml", text).expect("YAML");
    let given = survey(library, text);
    let panel = library.panels.get(&given.panel);
    let view = filled(blank(library, panel), &root);
    let back = read_back(library, &view, &given.survey);
    assert!(back.faults.is_empty(), "{:#?}\n{}", back.faults, back.text);
    assert_eq!(comparable(survey(library, &back.text)), comparable(given));
}

#[test]
fn every_demo_survey_comes_back() {
    let (library, _) = demo::library();
    let surveys = Files::embedded().surveys();
    assert!(surveys.len() > 8);
    for file in surveys {
        let text = String::from_utf8(file.bytes.expect("embedded")).expect("UTF-8");
        round_trip(&library, &text);
    }
}

#[test]
fn every_key_comes_back() {
    let (library, _) = demo::library();
    for key in survey_keys() {
        let name = key.path.rsplit('.').next().expect("a name");
        assert!(EVERY_KEY.contains(&format!("{name}:")), "{}", key.path);
    }
    round_trip(&library, EVERY_KEY);
}

#[test]
fn the_form_has_a_cell_for_every_key_and_a_key_for_every_cell() {
    let (library, _) = demo::library();
    // Of these the blanks are their parts': `none` is written in the first of them.
    let parts = ["loads", "cables.serves", "cables.serves.resistors"];
    let known: BTreeSet<String> =
        survey_keys().into_iter().map(|key| key.path).filter(|path| !parts.contains(&path.as_str())).collect();
    for panel in panels(&library) {
        let view = blank(&library, panel);
        let columns = view.tables.iter().flat_map(|table| &table.columns).map(|column| column.key);
        let columns = columns.filter(|key| !key.is_empty()).map(|key| key.split(' ').next().unwrap_or(key).to_string());
        let cells: BTreeSet<String> = view.fields.iter().map(|field| field.key.clone()).chain(columns).collect();
        assert_eq!(cells, known);
    }
}

#[test]
fn a_blank_form_says_what_nobody_knows_yet_in_the_cell_where_it_is_due() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let back = read_back(&library, &blank(&library, panel), "new-job");
        let faults: Vec<(&str, &str)> = back.faults.iter().map(|f| (f.sheet.as_str(), f.message.as_str())).collect();
        let expected = match panel {
            Some(_) => vec![("Survey", "`board` is empty")],
            None => vec![("Survey", "`panel` is empty"), ("Survey", "`board` is empty")],
        };
        assert_eq!(faults, expected);
        assert!(back.faults.iter().all(|fault| fault.cell.starts_with('C')), "{:?}", back.faults);
        assert_eq!(back.left_out.len(), 1, "cables of which nothing is written: {:?}", back.left_out);
    }
}

/// Writes a text into a cell of a table, by its sheet, key and row.
fn write(view: &mut FormView, sheet: &str, key: &str, row: usize, text: &str) {
    let table = view.tables.iter_mut().find(|table| table.name == sheet).expect("a sheet");
    let column = table.columns.iter().position(|column| column.key == key).expect("a key");
    while table.rows.len() <= row {
        table.rows.push(Vec::new());
    }
    let cells = &mut table.rows[row];
    while cells.len() <= column {
        cells.push(String::new());
    }
    cells[column] = text.to_string();
}

fn put(view: &mut FormView, key: &str, text: &str) {
    view.fields.iter_mut().find(|field| field.key == key).expect("a key").value = text.to_string();
}

#[test]
fn a_fault_is_told_by_sheet_and_cell() {
    let (library, _) = demo::library();
    let mut view = blank(&library, library.panels.get("merrowby-mb6"));
    put(&mut view, "board", "fennick-f8");
    assert!(read_back(&library, &view, "job").faults.is_empty());
    put(&mut view, "visited", "3 November");
    put(&mut view, "battery.state", "swolen");
    put(&mut view, "battery.load.volts", "12,1");
    write(&mut view, "Volts", "readings", 2, "13.6 A");
    write(&mut view, "Fuses", "fuses fuse", 1, "F1");
    write(&mut view, "Fuses", "fuses", 0, "1 A F");
    write(&mut view, "Fuses", "fuses", 1, "1 A F");
    write(&mut view, "Items", "cables.serves.item", 0, "Hall motion");
    write(&mut view, "Items", "fit.keep", 0, "maybe");
    write(&mut view, "Items", "fit.reaction", 1, "entry");
    write(&mut view, "Cores", "cables.cores", 0, "AUX");
    write(&mut view, "Loops", "cables.measured.ohms", 0, "11.4");
    let mut found: Vec<String> = read_back(&library, &view, "job")
        .faults
        .iter()
        .map(|f| format!("{} {}: {}", f.sheet, f.cell, f.message))
        .collect();
    found.sort();
    let expected = [
        "Cables B4: `type` is empty",
        // Something is written of C2 too, so it is a cable of the survey.
        "Cables B5: `type` is empty",
        "Fuses D5: the key `F1` is here twice; the first is in sheet Fuses, cell D4",
        "Items C4: `device` is empty",
        "Items H4: `maybe` says neither that it stays nor that it goes",
        "Items I5: this is written of an item of which nobody says that it stays",
        "Loops D4: something is written here, but not of which cable",
        "Survey C17: `state` can't be `swolen`",
        "Survey C22: `12,1` has a comma; a decimal point is due",
        "Survey C5: `3 November` is no date",
        "Volts D6: `13.6 A` is in amperes; volts are due",
    ];
    assert_eq!(found, expected);
}

#[test]
fn a_cable_has_one_row_and_no_load_is_said_by_its_word() {
    let (library, _) = demo::library();
    let mut view = blank(&library, library.panels.get("merrowby-mb6"));
    put(&mut view, "board", "fennick-f8");
    write(&mut view, "Cables", "cables.type", 0, "alarm-6");
    write(&mut view, "Loads", "loads.name", 0, "none");
    let back = read_back(&library, &view, "job");
    let faults: Vec<&str> = back.faults.iter().map(|fault| fault.message.as_str()).collect();
    assert!(faults.iter().all(|fault| !fault.contains("twice")), "{faults:?}");
    assert!(back.left_out[0].starts_with("C2, "), "{:?}", back.left_out);
    assert!(back.text.lines().any(|line| line == "loads: none"), "{}", back.text);
    write(&mut view, "Cables", "cables.cable", 1, "C1");
    write(&mut view, "Loads", "loads.name", 1, "Router");
    let back = read_back(&library, &view, "job");
    let twice = back.faults.iter().find(|fault| fault.message.contains("twice")).expect("C1 is there twice");
    assert_eq!(
        (twice.cell.as_str(), twice.message.as_str()),
        ("A5", "the cable `C1` is here twice; the first is in cell A4")
    );
    assert!(back.text.lines().all(|line| line != "loads: none"), "{}", back.text);
}

#[test]
fn a_bare_number_has_the_unit_that_stands_with_its_cell() {
    let (library, _) = demo::library();
    let mut view = blank(&library, library.panels.get("merrowby-mb6"));
    put(&mut view, "board", "fennick-f8");
    put(&mut view, "battery.load.after", "10");
    put(&mut view, "battery.load.current", "500 mA");
    put(&mut view, "site.monitored", "Yes");
    write(&mut view, "Loads", "loads.name", 0, "Router");
    write(&mut view, "Loads", "loads.standby", 0, "400");
    let back = read_back(&library, &view, "job");
    assert!(back.faults.is_empty(), "{:?}", back.faults);
    for line in ["    after: 10 min", "    current: 500 mA", "  monitored: true", "    standby: 400 mA"] {
        assert!(back.text.lines().any(|own| own == line), "{line}\n{}", back.text);
    }
}

#[test]
fn the_id_is_the_commands_and_the_form_may_not_say_another() {
    let (library, _) = demo::library();
    let mut view = blank(&library, library.panels.get("merrowby-mb6"));
    put(&mut view, "board", "fennick-f8");
    put(&mut view, "survey", "job");
    assert!(read_back(&library, &view, "job").faults.is_empty());
    let faults = read_back(&library, &view, "other").faults;
    assert!(faults.len() == 1 && faults[0].message.contains("`job`"), "{faults:?}");
}

#[test]
fn the_same_form_has_the_same_bytes_and_asks_no_clock() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let view = blank(&library, panel);
        assert_eq!(render::form(&view), render::form(&view));
    }
}
