//! Spreadsheets that nobody's survey made.

use super::{blank, read_back};
use crate::pages::demo;
use std::io::{Cursor, Read, Write};
use wirelore::check::form_survey;
use wirelore::render;
use wirelore::source::workbook;
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

/// The parts of a spreadsheet by name.
fn parts(bytes: &[u8]) -> Vec<(String, String)> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("a spreadsheet");
    let count = archive.len();
    let read = |at: usize| {
        let mut part = archive.by_index(at).expect("a part");
        let name = part.name().expect("a name").to_string();
        let mut text = String::new();
        part.read_to_string(&mut text).expect("text");
        (name, text)
    };
    (0..count).map(read).collect()
}

fn packed(parts: &[(String, String)]) -> Vec<u8> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        archive.start_file(name, SimpleFileOptions::default()).expect("a part");
        archive.write_all(text.as_bytes()).expect("written");
    }
    archive.finish().expect("a spreadsheet").into_inner()
}

fn small() -> Vec<u8> {
    let (library, _) = demo::library();
    render::form(&blank(&library, library.panels.get("dunmarrow-d3"))).expect("a form")
}

#[test]
fn no_cell_is_a_formula_whatever_a_card_says() {
    let (library, _) = demo::library();
    let mut panel = library.panels.get("dunmarrow-d3").expect("a panel").clone();
    let marks = ["=1+1", "+12", "-V", "@x", "\t=2", "=cmd|' /c x'!A0"];
    for (terminal, mark) in panel.unit.terminals.iter_mut().rev().zip(marks) {
        terminal.mark = mark.to_string();
        terminal.does = Some(format!("={mark}"));
    }
    let bytes = render::form(&blank(&library, Some(&panel))).expect("a form");
    for (name, text) in parts(&bytes) {
        assert!(!text.contains("<f>") && !text.contains("<f "), "{name}");
        assert!(!text.contains("externalLink") && !text.contains("vbaProject"), "{name}");
    }
    let back = read_back(&library, &blank(&library, Some(&panel)), "job");
    assert_eq!(back.faults.len(), 1, "{:?}", back.faults);
}

#[test]
fn a_small_file_that_inflates_without_end_is_refused() {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    archive.start_file("xl/sharedStrings.xml", SimpleFileOptions::default()).expect("a part");
    for _ in 0..64 {
        archive.write_all(&vec![b' '; 1 << 20]).expect("written");
    }
    let bytes = archive.finish().expect("a file").into_inner();
    assert!(bytes.len() < 200_000, "{}", bytes.len());
    assert!(workbook(&bytes).expect_err("too much").message.contains("32 MB"));
    assert!(workbook(&vec![0; (8 << 20) + 1]).expect_err("too much").message.contains("8 MB"));
}

#[test]
fn a_long_text_in_the_file_once_and_in_every_cell_is_refused() {
    let mut parts = parts(&small());
    let (_, strings) = parts.iter_mut().find(|(name, _)| name == "xl/sharedStrings.xml").expect("its texts");
    let (head, _) = strings.split_once("<si>").expect("a text");
    *strings = format!("{head}<si><t>{}</t></si></sst>", "a".repeat(4 << 20));
    let (_, sheet) = parts.iter_mut().find(|(name, _)| name == "xl/worksheets/sheet3.xml").expect("a sheet");
    let (head, tail) = sheet.split_once("<sheetData>").expect("its cells");
    let (_, tail) = tail.split_once("</sheetData>").expect("its end");
    let row = format!("<row>{}</row>", "<c t=\"s\"><v>0</v></c>".repeat(100));
    *sheet = format!("{head}<sheetData>{}</sheetData>{tail}", row.repeat(1000));
    let bytes = packed(&parts);
    assert!(bytes.len() < 100_000, "{}", bytes.len());
    let fault = workbook(&bytes).expect_err("400 GB of text");
    assert!(fault.message.contains("too much in this spreadsheet"), "{fault:?}");
    assert!(wirelore::source::table(&bytes).is_err());
}

#[test]
fn cells_that_hold_nothing_are_counted_as_well() {
    let mut parts = parts(&small());
    let (_, sheet) = parts.iter_mut().find(|(name, _)| name == "xl/worksheets/sheet3.xml").expect("a sheet");
    let empty = format!("<row r=\"5000\">{}</row></sheetData>", "<c></c>".repeat(2_100_000));
    *sheet = sheet.replace("</sheetData>", &empty);
    let fault = workbook(&packed(&parts)).expect_err("two million cells");
    assert!(fault.message.contains("too much in this spreadsheet"), "{fault:?}");
}

#[test]
fn a_cell_far_out_takes_no_memory_and_is_refused() {
    let mut parts = parts(&small());
    let sheet = parts.iter_mut().find(|(name, _)| name == "xl/worksheets/sheet3.xml").expect("a sheet");
    let far = "<row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row></sheetData>";
    sheet.1 = sheet.1.replace("</sheetData>", far);
    let fault = workbook(&packed(&parts)).expect_err("too far");
    assert!(fault.message.contains("XFD1048576"), "{fault:?}");
}

#[test]
fn what_is_no_spreadsheet_or_a_damaged_one_is_told() {
    assert!(workbook(b"").is_err() && workbook(b"survey: x\n").is_err());
    let whole = small();
    let (library, _) = demo::library();
    let mut seed = 7_u64;
    for step in 0..400 {
        // A linear congruence is enough to spread the places of damage.
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let at = usize::try_from(seed >> 33).expect("small") % whole.len();
        let mut bytes = whole.clone();
        if step % 4 == 0 {
            bytes.truncate(at);
        } else {
            bytes[at] ^= 1 << (step % 8);
        }
        // Damage that is not seen is in what nobody reads; none of it ends the program.
        if let Ok(book) = workbook(&bytes) {
            let _ = form_survey(&library, &book, "job");
        }
    }
}

#[test]
fn text_in_place_of_every_cell_is_no_panic() {
    let (library, _) = demo::library();
    let words =
        ["none", "=1", "{[: #", "\"", "\u{202e}x", "join ", " for ", "1e999", "NaN", "é", "0", "true", "a\nb: c", "-"];
    for word in words {
        let mut view = blank(&library, library.panels.get("dunmarrow-d3"));
        view.fields.iter_mut().for_each(|field| field.value = word.to_string());
        for table in &mut view.tables {
            table.rows = vec![vec![word.to_string(); table.columns.len()]; 3];
        }
        let back = read_back(&library, &view, "job");
        assert!(!back.faults.is_empty(), "{word}");
        assert!(back.faults.iter().all(|fault| !fault.message.contains(" in line ")), "{:?}", back.faults);
    }
}

#[test]
fn a_form_of_two_hundred_cables_is_read() {
    let (library, _) = demo::library();
    let panel = library.panels.get("quillace-q8s");
    let view = wirelore::pack::sheet::form::form(&wirelore::pack::sheet::Wanted {
        library: &library,
        panel,
        name: "",
        board: None,
        cables: 200,
    });
    assert_eq!(read_back(&library, &view, "job").faults.len(), 1);
}
