//! A table that somebody typed or pasted: from a spreadsheet (`.xlsx`) or from text with commas, semicolons or tabs
//! between its cells. What a hostile file could do is bounded before it is read.

use super::FileFault;
use super::workbook::{Worksheet, cell_name, workbook};
use calamine::{Reader, Xlsx};
use csv::{ReaderBuilder, StringRecord};
use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};
use std::io::Cursor;

/// The most bytes that a table may have.
pub const TABLE_BYTES: usize = 8 << 20;
/// The most rows with something in them.
const ROWS: usize = 2000;
/// The most columns.
const COLUMNS: usize = 100;
/// The most letters of a cell.
const LETTERS: usize = 2000;
/// How many rows are looked at to find out what stands between the cells.
const LOOKED_AT: usize = 64;

/// A table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// How it was read, in words.
    pub how: String,
    /// The sheet of a spreadsheet; `None` for text.
    pub sheet: Option<String>,
    /// Its rows with something in them.
    pub rows: Vec<TableRow>,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TableRow {
    /// Its line or row, from 1.
    pub number: u32,
    /// Its cells, without spaces before and after.
    pub cells: Vec<String>,
    /// Whether its first cell reaches over others: it is a heading.
    pub wide: bool,
}

impl Table {
    /// Where a cell is, as a person finds it; `column` is from 0.
    #[must_use]
    pub fn place(&self, row: u32, column: usize) -> String {
        let number = u32::try_from(column).unwrap_or(u32::MAX);
        match &self.sheet {
            Some(sheet) => format!("sheet {sheet}, cell {}", cell_name(row.saturating_sub(1), number)),
            None => format!("line {row}, column {}", column.saturating_add(1)),
        }
    }

    /// Where a row is.
    #[must_use]
    pub fn row_place(&self, row: u32) -> String {
        if self.sheet.is_some() { format!("row {row}") } else { format!("line {row}") }
    }
}

impl TableRow {
    /// The text of a cell, from 0; empty when there is none.
    #[must_use]
    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }
}

fn fault<T>(message: impl Into<String>, help: &str) -> Result<T, FileFault> {
    Err(FileFault { message: message.into(), help: help.to_owned() })
}

/// Reads a table. What it is follows from its bytes, not from a name.
///
/// # Errors
/// When it is no table, is damaged, or goes beyond what is read.
pub fn table(bytes: &[u8]) -> Result<Table, FileFault> {
    if bytes.len() > TABLE_BYTES {
        return fault("this table is larger than 8 MB", "a panel has a few hundred terminals: take the rest out");
    }
    let read = match bytes {
        [b'P', b'K', ..] => spreadsheet(bytes)?,
        [0xd0, 0xcf, 0x11, 0xe0, ..] => {
            return fault("this is a spreadsheet of the old kind (`.xls`)", "save it as `.xlsx` or as `.csv`");
        }
        _ => text(bytes)?,
    };
    if read.rows.is_empty() {
        return fault("this table is empty", "write a row of heads, then a row for each terminal");
    }
    Ok(read)
}

fn too_many(place: &str) -> FileFault {
    let message = format!("this table has more than {ROWS} rows with something in them; {place} is one too many");
    FileFault { message, help: "a panel has a few hundred terminals at most: take the rest out".to_owned() }
}

/// The first sheet with something in it.
fn spreadsheet(bytes: &[u8]) -> Result<Table, FileFault> {
    let book = workbook(bytes)?;
    let mut filled = book.sheets.iter().filter(|sheet| !sheet.cells.is_empty());
    let Some(sheet) = filled.next() else { return Ok(Table::default()) };
    let others: Vec<String> = filled.map(|sheet| format!("`{}`", sheet.name)).collect();
    let left = if others.is_empty() { String::new() } else { format!("; not read: {}", others.join(", ")) };
    let merged = merged(bytes, &sheet.name)?;
    Ok(Table {
        how: format!("a spreadsheet, sheet `{}`{left}", sheet.name),
        sheet: Some(sheet.name.clone()),
        rows: rows_of_sheet(sheet, &merged)?,
    })
}

/// Cells that were made one, each as its first row and column and its last.
type Merged = ((u32, u32), (u32, u32));

fn merged(bytes: &[u8], sheet: &str) -> Result<Vec<Merged>, FileFault> {
    let book: Result<Xlsx<_>, _> = Xlsx::new(Cursor::new(bytes));
    let regions = book.and_then(|mut book| book.merge_cells_by_sheet_name(sheet)).unwrap_or_default();
    if regions.len() > ROWS {
        let message = format!("sheet `{sheet}` has more than {ROWS} cells that were made one of several");
        return fault(message, "take the cells apart again");
    }
    Ok(regions.iter().map(|region| (region.start, region.end)).collect())
}

fn rows_of_sheet(sheet: &Worksheet, merged: &[Merged]) -> Result<Vec<TableRow>, FileFault> {
    let mut rows: Vec<TableRow> = Vec::new();
    for (&(row, column), written) in &sheet.cells {
        let number = row.saturating_add(1);
        let at = usize::try_from(column).unwrap_or(usize::MAX);
        if written.text.chars().count() > LETTERS {
            let message = format!("cell {} has more than {LETTERS} letters", cell_name(row, column));
            return fault(message, "take out what is not of the table");
        }
        if at >= COLUMNS {
            let message = format!("cell {} lies beyond the {COLUMNS}th column", cell_name(row, column));
            return fault(message, "take out what is not of the table");
        }
        if rows.last().is_none_or(|last| last.number != number) {
            if rows.len() == ROWS {
                return Err(too_many(&format!("row {number}")));
            }
            rows.push(TableRow { number, ..TableRow::default() });
        }
        let Some(last) = rows.last_mut() else { continue };
        let is_first = last.cells.is_empty();
        last.cells.resize(at + 1, String::new());
        if let Some(cell) = last.cells.last_mut() {
            written.text.clone_into(cell);
        }
        let reaches = |((top, left), (_, right)): &Merged| (*top, *left) == (row, column) && right > left;
        last.wide |= is_first && merged.iter().any(reaches);
    }
    down(&mut rows, merged)?;
    Ok(rows)
}

/// What stands in a cell that reaches over several rows holds for each of them.
///
/// # Errors
/// When that is more text than a table may have: a few cells could be written into thousands.
fn down(rows: &mut [TableRow], merged: &[Merged]) -> Result<(), FileFault> {
    let mut room = TABLE_BYTES;
    for ((top, left), (bottom, _)) in merged.iter().filter(|((top, _), (bottom, _))| bottom > top) {
        let column = usize::try_from(*left).unwrap_or(usize::MAX);
        let text = rows.iter().find(|row| row.number == top + 1).map(|row| row.cell(column).to_owned());
        let Some(text) = text.filter(|text| !text.is_empty() && column < COLUMNS) else { continue };
        for row in rows.iter_mut().filter(|row| row.number > top + 1 && row.number <= bottom.saturating_add(1)) {
            let length = row.cells.len().max(column + 1);
            row.cells.resize(length, String::new());
            if let Some(cell) = row.cells.get_mut(column).filter(|cell| cell.is_empty()) {
                let Some(less) = room.checked_sub(text.len()) else {
                    let message = "cells that were made one of several hold too much text";
                    return fault(message, "take the cells apart again");
                };
                room = less;
                text.clone_into(cell);
            }
        }
    }
    Ok(())
}

/// A table of text: its letters by their mark, as UTF-8, else as Windows-1252.
fn text(bytes: &[u8]) -> Result<Table, FileFault> {
    let (encoding, name) = match Encoding::for_bom(bytes) {
        Some((encoding, _)) => (encoding, encoding.name()),
        None if std::str::from_utf8(bytes).is_ok() => (UTF_8, "UTF-8"),
        None => (WINDOWS_1252, "Windows-1252"),
    };
    let (text, _, damaged) = encoding.decode(bytes);
    if damaged || text.contains('\0') {
        return fault("this is no table of text", "save it as `.csv` or as `.xlsx`");
    }
    let (text, separator) = match stated(&text) {
        Some((separator, rest)) => (rest, separator),
        None => (text.as_ref(), separator(&text)),
    };
    let between = match separator {
        b'\t' => "tabs",
        b';' => "semicolons",
        _ => "commas",
    };
    Ok(Table { how: format!("{between} between its cells, {name}"), sheet: None, rows: rows_of_text(text, separator)? })
}

/// The separator that the first line states, `sep=;`, as some spreadsheets write it. The line stays, as an empty one.
fn stated(text: &str) -> Option<(u8, &str)> {
    let rest = text.strip_prefix("sep=")?;
    let separator = *rest.as_bytes().first()?;
    matches!(separator, b';' | b',' | b'\t').then(|| (separator, rest.get(1..).unwrap_or_default()))
}

fn records(text: &str, separator: u8) -> csv::Reader<&[u8]> {
    ReaderBuilder::new().delimiter(separator).has_headers(false).flexible(true).from_reader(text.as_bytes())
}

/// What stands between the cells: what gives most rows the same number of cells, two at least.
fn separator(text: &str) -> u8 {
    let agreeing = |separator: u8| {
        let mut reader = records(text, separator);
        let lengths: Vec<usize> =
            reader.records().take(LOOKED_AT).filter_map(Result::ok).map(|row| row.len()).collect();
        let count = |length: usize| lengths.iter().filter(|other| **other == length).count();
        lengths.iter().filter(|length| **length > 1).map(|length| (count(*length), *length)).max().unwrap_or_default()
    };
    let all = [b'\t', b';', b','];
    all.into_iter().rev().max_by_key(|separator| agreeing(*separator)).unwrap_or(b',')
}

fn rows_of_text(text: &str, separator: u8) -> Result<Vec<TableRow>, FileFault> {
    let mut reader = records(text, separator);
    let mut record = StringRecord::new();
    let mut rows = Vec::new();
    loop {
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => return Ok(rows),
            Err(error) => return fault(format!("this table can't be read: {error}"), "save it again as `.csv`"),
        }
        let number = record.position().map_or(0, |position| line_of(text, position));
        let cells: Vec<String> = record.iter().map(|cell| cell.trim().to_owned()).collect();
        if cells.iter().all(String::is_empty) {
            continue;
        }
        if rows.len() == ROWS {
            return Err(too_many(&format!("line {number}")));
        }
        within(&cells, number)?;
        rows.push(TableRow { number, cells, wide: false });
    }
}

/// The line in which a record begins. Its position is where the one before it ended, ahead of empty lines.
fn line_of(text: &str, position: &csv::Position) -> u32 {
    let from = usize::try_from(position.byte()).ok().and_then(|byte| text.as_bytes().get(byte..)).unwrap_or_default();
    let empty = from.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).filter(|byte| **byte == b'\n').count();
    let line = position.line().saturating_add(u64::try_from(empty).unwrap_or(u64::MAX));
    u32::try_from(line).unwrap_or(u32::MAX)
}

/// Refuses a row that is wider, or a cell that is longer, than a table's.
fn within(cells: &[String], line: u32) -> Result<(), FileFault> {
    if cells.len() > COLUMNS {
        return fault(format!("line {line} has more than {COLUMNS} cells"), "take out what is not of the table");
    }
    match cells.iter().position(|cell| cell.chars().count() > LETTERS) {
        None => Ok(()),
        Some(at) => fault(
            format!("line {line}, column {}: this cell has more than {LETTERS} letters", at + 1),
            "look for a quote (`\"`) that is opened and not closed",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<(u32, Vec<String>)> {
        table(text.as_bytes()).expect("a table").rows.into_iter().map(|row| (row.number, row.cells)).collect()
    }

    #[test]
    fn what_stands_between_cells_is_found() {
        for (text, how) in
            [("a;b\n1,5;2\n", "semicolons"), ("a,b\n\"1;2;3\",2\n", "commas"), ("a\tb, c\n1\t2\n", "tabs")]
        {
            let read = table(text.as_bytes()).expect("a table");
            assert!(read.how.starts_with(how), "{}", read.how);
            assert_eq!(read.rows.first().map(|row| row.cells.len()), Some(2), "{text}");
        }
        assert_eq!(rows("sep=;\na;b\n"), [(2, vec!["a".to_owned(), "b".to_owned()])]);
    }

    #[test]
    fn lines_are_counted_over_quotes_and_empty_rows() {
        let read = rows("a,b\n,\n\n\"x\ny\",2\nz,3\n");
        let numbers: Vec<u32> = read.iter().map(|(number, _)| *number).collect();
        assert_eq!(numbers, [1, 4, 6]);
    }

    #[test]
    fn letters_are_read_in_any_usual_encoding() {
        let utf_16: Vec<u8> = "\u{feff}Ω\tb\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
        for (bytes, first) in
            [(&b"\xef\xbb\xbfa;b\n"[..], "a"), (b"\xb5A;b\n", "µA"), ("µA;b\n".as_bytes(), "µA"), (&utf_16, "Ω")]
        {
            let read = table(bytes).expect("a table");
            assert_eq!(read.rows.first().map(|row| row.cell(0).to_owned()).as_deref(), Some(first), "{}", read.how);
        }
    }

    #[test]
    fn what_is_no_table_is_said_to_be_none() {
        for bytes in [&b""[..], b"\xd0\xcf\x11\xe0", b"PK\x03\x04junk", b"%PDF-1.4\0\x01", b",,\n,,\n"] {
            assert!(table(bytes).is_err(), "{bytes:?}");
        }
        let many = "a;b\n".repeat(100_000);
        let said = table(many.as_bytes()).expect_err("too many").message;
        assert!(said.contains("more than 2000 rows") && said.contains("line 2001"), "{said}");
        let said = table(format!("a,b\n\"{}", "x,y\n".repeat(3000)).as_bytes()).expect_err("an open quote");
        assert!(said.message.contains("line 2, column 1") && said.help.contains("quote"), "{said:?}");
    }
}
