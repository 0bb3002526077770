//! `wirelore sheet`.

use super::run::{files, folder, library, names, run};
use std::fs;
use std::io::{Read, Write};

#[test]
fn a_sheet_is_three_files_and_says_where_they_are() {
    let dir = folder();
    let made = run(dir.path(), &["sheet", "merrowby-mb6"]).ends(0);
    assert!(made.out.contains("sheets/merrowby-mb6") && made.err.is_empty(), "{made:?}");
    assert_eq!(names(&dir.path().join("sheets/merrowby-mb6")), ["sheet.html", "sheet.md", "survey.yaml"]);
    let checked = run(dir.path(), &["check", "sheets/merrowby-mb6/survey.yaml"]).ends(1);
    assert!(checked.out.contains("`board` is empty") && checked.out.matches("error:").count() == 1, "{checked:?}");
    run(dir.path(), &["sheet", "merrowby-mb6", "--board", "fennick-f8", "-o", "with"]).ends(0);
    run(dir.path(), &["check", "with/merrowby-mb6/survey.yaml"]).ends(0);
}

#[test]
fn a_panel_that_is_not_there_gets_the_generic_sheet() {
    let dir = folder();
    let made = run(dir.path(), &["sheet", "anything-new", "merowby-mb6", "Merrowby MB-6", "-o", "out"]).ends(0);
    assert!(made.err.contains("\"anything-new\" is not in the library"), "{made:?}");
    assert!(made.err.contains("Did you mean merrowby-mb6?"), "{made:?}");
    let text = fs::read_to_string(dir.path().join("out/anything-new/sheet.md")).expect("a sheet");
    assert!(text.starts_with("# Survey sheet: anything-new") && text.contains("generic sheet"), "{text}");
    run(dir.path(), &["check", "out/anything-new/survey.yaml"]).ends(1);
}

#[test]
fn a_model_or_another_name_is_as_good_as_an_id_where_one_panel_has_it() {
    let dir = folder();
    let made = run(dir.path(), &["sheet", "mb6", "MB-6", "merrowby-mb6"]).ends(0);
    assert!(made.err.contains("mb6 is taken for merrowby-mb6 (Merrowby MB6)"), "{made:?}");
    assert_eq!(names(&dir.path().join("sheets")), ["merrowby-mb6"]);
    assert!(made.out.contains("1 sheet written"), "{made:?}");
}

#[test]
fn what_is_no_panel_gets_no_sheet_and_the_others_do() {
    let dir = folder();
    let made = run(dir.path(), &["sheet", "fennick-f8", "tarnholt-t5"]).ends(1);
    assert!(made.err.contains("fennick-f8 is a card, but not a panel's"), "{made:?}");
    assert_eq!(names(&dir.path().join("sheets")), ["tarnholt-t5"]);
    run(dir.path(), &["sheet", "../..", "-o", "none"]).ends(2);
    assert!(!dir.path().join("none").exists());
    run(dir.path(), &["sheet", "tarnholt-t5", "--board", "fenick-f8"]).ends(1);
    run(dir.path(), &["sheet", "tarnholt-t5", "--cables", "0"]).ends(2);
}

#[test]
fn a_survey_in_which_something_was_typed_is_left_alone() {
    let dir = folder();
    let survey = dir.path().join("sheets/merrowby-mb6/survey.yaml");
    run(dir.path(), &["sheet", "merrowby-mb6", "--cables", "2"]).ends(0);
    let two = fs::read_to_string(&survey).expect("a survey");
    run(dir.path(), &["sheet", "merrowby-mb6", "--cables", "5", "--board", "fennick-f8"]).ends(0);
    let five = fs::read_to_string(&survey).expect("a survey");
    assert!(five.contains("cable: C5") && !two.contains("cable: C5"), "an untouched one is made anew");
    let typed = five.replace("# by:", "by: KM");
    fs::write(&survey, &typed).expect("written");
    fs::write(dir.path().join("sheets/merrowby-mb6/photo.jpg"), "photo").expect("written");
    let again = run(dir.path(), &["sheet", "merrowby-mb6", "--cables", "3"]).ends(0);
    assert!(again.err.contains("left as it is"), "{again:?}");
    assert_eq!(fs::read_to_string(&survey).expect("a survey"), typed);
    assert_eq!(fs::read_to_string(dir.path().join("sheets/merrowby-mb6/photo.jpg")).expect("a photo"), "photo");
}

#[test]
fn the_same_command_writes_the_same_bytes() {
    let (one, two) = (folder(), folder());
    for dir in [&one, &two] {
        run(dir.path(), &["sheet", "quillace-q8s", "tarnholt-t9", "new one"]).ends(0);
    }
    assert_eq!(files(one.path()), files(two.path()));
}

#[test]
fn a_card_with_faults_gets_the_generic_sheet_and_that_is_a_fault() {
    let (dir, library) = library();
    let card = library.join("panels/merrowby-mb6.yaml");
    let text = fs::read_to_string(&card).expect("a card");
    fs::write(&card, text.replacen("mains:", "mainz:", 1)).expect("written");
    let made = run(dir.path(), &["--library", "library", "sheet", "merrowby-mb6"]).ends(1);
    assert!(made.err.contains("has faults") && made.out.contains("(generic)"), "{made:?}");
}

/// A form in which one cell was written over.
fn typed(bytes: &[u8], from: &str, to: &str) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).expect("a spreadsheet");
    let mut out = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let mut part = archive.by_index(at).expect("a part");
        let mut text = String::new();
        part.read_to_string(&mut text).expect("text");
        let name = part.name().expect("a name").to_string();
        out.start_file(name, zip::write::SimpleFileOptions::default()).expect("a part");
        out.write_all(text.replace(from, to).as_bytes()).expect("written");
    }
    out.finish().expect("a spreadsheet").into_inner()
}

#[test]
fn a_form_becomes_a_survey() {
    let dir = folder();
    run(dir.path(), &["sheet", "merrowby-mb6", "--xlsx", "--board", "fennick-f8"]).ends(0);
    let made = run(dir.path(), &["new", "survey", "pier", "--from", "sheets/merrowby-mb6/sheet.xlsx"]).ends(0);
    assert!(made.out.contains("Wrote pier.yaml") && made.err.contains("left out C1"), "{made:?}");
    run(dir.path(), &["check", "pier.yaml"]).ends(0);
    run(dir.path(), &["new", "survey", "pier", "--from", "sheets/merrowby-mb6/sheet.xlsx"]).ends(2);
    run(dir.path(), &["new", "survey", "quay", "--from", "nosuch.xlsx"]).ends(2);
    run(dir.path(), &["new", "survey", "quay", "--from", "sheets/merrowby-mb6/sheet.md"]).ends(1);
    let (_keep, library) = library();
    let at = [
        "--library",
        library.to_str().expect("UTF-8"),
        "new",
        "survey",
        "quay",
        "--from",
        "sheets/merrowby-mb6/sheet.xlsx",
    ];
    run(dir.path(), &at).ends(0);
    assert!(library.join("surveys/quay.yaml").is_file());
}

#[test]
fn a_form_with_faults_becomes_none_and_says_where_they_are() {
    let dir = folder();
    run(dir.path(), &["sheet", "merrowby-mb6", "--xlsx"]).ends(0);
    let read = run(dir.path(), &["new", "survey", "pier", "--from", "sheets/merrowby-mb6/sheet.xlsx"]).ends(1);
    assert!(read.err.contains("sheet.xlsx, sheet Survey, cell C") && read.err.contains("`board` is empty"), "{read:?}");
    assert!(!dir.path().join("pier.yaml").exists());
}

#[test]
fn a_form_in_which_something_was_typed_is_left_alone() {
    let dir = folder();
    let path = dir.path().join("sheets/merrowby-mb6/sheet.xlsx");
    run(dir.path(), &["sheet", "merrowby-mb6", "--xlsx"]).ends(0);
    let blank = fs::read(&path).expect("a form");
    run(dir.path(), &["sheet", "merrowby-mb6", "--xlsx", "--cables", "3", "--board", "fennick-f8"]).ends(0);
    assert_ne!(fs::read(&path).expect("a form"), blank, "an untouched one is made anew");
    let written = typed(&blank, "12 V out to detectors", "12 V out to a lock");
    fs::write(&path, &written).expect("written");
    let again = run(dir.path(), &["sheet", "merrowby-mb6", "--xlsx"]).ends(0);
    assert!(again.err.contains("sheet.xlsx is not as this command wrote it"), "{again:?}");
    assert_eq!(fs::read(&path).expect("a form"), written);
}
