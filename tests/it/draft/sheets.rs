//! Spreadsheets, written here by hand as the few parts that a reader needs.

use super::{checked, drafted, faults, text};
use std::fmt::Write as _;
use std::io::{Cursor, Write as _};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// A spreadsheet with these cells and merged regions on its second sheet; the first is empty.
fn xlsx(cells: &[(&str, &str)], merged: &[&str]) -> Vec<u8> {
    let mut rows: Vec<(u32, String)> = Vec::new();
    for (place, text) in cells {
        let row: u32 = place.trim_start_matches(|c: char| c.is_ascii_alphabetic()).parse().expect("a row");
        let cell = match text.strip_prefix('=') {
            Some(number) => format!("<c r=\"{place}\"><v>{number}</v></c>"),
            None => format!("<c r=\"{place}\" t=\"inlineStr\"><is><t>{text}</t></is></c>"),
        };
        match rows.last_mut() {
            Some((last, xml)) if *last == row => xml.push_str(&cell),
            _ => rows.push((row, cell)),
        }
    }
    let mut data = String::new();
    for (row, xml) in rows {
        let _ = write!(data, "<row r=\"{row}\">{xml}</row>");
    }
    let merged: String = merged.iter().flat_map(|place| ["<mergeCell ref=\"", place, "\"/>"]).collect();
    let merged = if merged.is_empty() { merged } else { format!("<mergeCells>{merged}</mergeCells>") };
    parts(&format!("<sheetData>{data}</sheetData>{merged}"))
}

fn parts(sheet: &str) -> Vec<u8> {
    const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    const REL: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006/relationships";
    const TYPES: &str = "http://schemas.openxmlformats.org/package/2006/content-types";
    let rel = |id: &str, kind: &str, target: &str| {
        format!("<Relationship Id=\"{id}\" Type=\"{REL}/{kind}\" Target=\"{target}\"/>")
    };
    let files = [
        (
            "[Content_Types].xml",
            format!("<Types xmlns=\"{TYPES}\"><Default Extension=\"xml\" ContentType=\"application/xml\"/></Types>"),
        ),
        (
            "_rels/.rels",
            format!(
                "<Relationships xmlns=\"{PACKAGE}\">{}</Relationships>",
                rel("rId1", "officeDocument", "xl/workbook.xml")
            ),
        ),
        (
            "xl/workbook.xml",
            format!(
                "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{REL}\"><sheets><sheet name=\"Cover\" sheetId=\"1\" r:id=\"rId1\"/><sheet name=\"Terminals\" sheetId=\"2\" r:id=\"rId2\"/></sheets></workbook>"
            ),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships xmlns=\"{PACKAGE}\">{}{}</Relationships>",
                rel("rId1", "worksheet", "worksheets/sheet1.xml"),
                rel("rId2", "worksheet", "worksheets/sheet2.xml")
            ),
        ),
        ("xl/worksheets/sheet1.xml", format!("<worksheet xmlns=\"{MAIN}\"><sheetData/></worksheet>")),
        ("xl/worksheets/sheet2.xml", format!("<worksheet xmlns=\"{MAIN}\">{sheet}</worksheet>")),
    ];
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in files {
        zip.start_file(name, SimpleFileOptions::default()).expect("a part");
        zip.write_all(text.as_bytes()).expect("written");
    }
    zip.finish().expect("a spreadsheet").into_inner()
}

#[test]
fn merged_cells_empty_rows_and_numbers() {
    let cells = [
        ("A1", "Quayside QX4"),
        ("A3", "Terminal"),
        ("B3", "Function"),
        ("C3", "Group"),
        ("D3", "Max current (mA)"),
        ("A5", "Supply"),
        ("A6", "AUX+"),
        ("B6", "12 V out"),
        ("C6", "supply"),
        ("D6", "=400"),
        ("A7", "AUX-"),
        ("B7", "Common"),
        ("A9", "=1"),
        ("B9", "Zone 1"),
    ];
    let card = text(&xlsx(&cells, &["A1:D1", "A5:D5", "C6:C7"]));
    checked(&card);
    for part in [
        "sheet `Terminals`",
        "  # row 5: Supply\n",
        "- mark: AUX+\n    does: \"12 V out\"\n    group: supply\n    limit: 400 mA\n",
        "- mark: AUX-\n    does: \"Common\"\n    group: supply\n",
        "- mark: \"1\"\n    does: \"Zone 1\"\n",
    ] {
        assert!(card.contains(part), "{part}\n{card}");
    }
}

#[test]
fn wrong_cells_are_told_by_sheet_and_cell() {
    let cells = [("B2", "Terminal"), ("C2", "Volts"), ("B3", "A+"), ("C3", "red"), ("B4", "A+")];
    let told = faults(&xlsx(&cells, &[]));
    assert!(told[0].0 == "sheet Terminals, cell C3" && told[0].1.contains("no quantity"), "{told:?}");
    assert!(told[1].0 == "sheet Terminals, cell B4" && told[1].1.contains("first is in row 3"), "{told:?}");
}

#[test]
fn columns_have_letters() {
    let cells = [("A1", "9"), ("B1", "A+"), ("C1", "feeds")];
    let card = drafted(&xlsx(&cells, &[]), &[("mark", "B"), ("does", "c")]).expect("a draft").text;
    assert!(card.contains("- mark: A+\n    does: \"feeds\"\n"), "{card}");
}

/// A few kilobytes that inflate to more than memory should hold, a sheet that says it is endless, and damage.
#[test]
fn hostile_spreadsheets_are_bounded() {
    let bomb = parts(&format!("<sheetData>{}</sheetData>", " ".repeat(40 << 20)));
    assert!(bomb.len() < 1 << 20, "{}", bomb.len());
    let began = std::time::Instant::now();
    let told = drafted(&bomb, &[]).expect_err("a bomb");
    assert!(told[0].message.contains("more than 32 MB"), "{told:?}");
    println!("refused in {:?}", began.elapsed());
    let far = xlsx(&[("A1", "mark"), ("ZZZ1000000", "x")], &[]);
    assert!(drafted(&far, &[]).expect_err("far out")[0].message.contains("too much"));
    let wide = xlsx(&[("A1", "mark"), ("DZ1", "x")], &[]);
    assert!(drafted(&wide, &[]).expect_err("wide")[0].message.contains("beyond the 100th column"));
    let many: Vec<String> = (1..3000).map(|n| format!("A{n}:B{n}")).collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    assert!(drafted(&xlsx(&[("A1", "mark")], &many), &[]).is_err());
    let good = xlsx(&[("A1", "mark"), ("A2", "A+")], &[]);
    for length in (0..good.len()).step_by(37) {
        let _ = drafted(&good[..length], &[]);
    }
}
