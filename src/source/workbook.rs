//! A spreadsheet (`.xlsx`): its sheets with what is written in their cells. What a hostile file could do is bounded
//! before it is read: its size, what it inflates to, how many cells it has and how far out they lie.

use super::FileFault;
use calamine::{DataRef, Reader, Xlsx};
use std::collections::BTreeMap;
use std::io::{Cursor, Read};
use zip::ZipArchive;

/// The most bytes that a spreadsheet may have.
const BYTES: usize = 8 << 20;
/// The most bytes that it may inflate to. A form of two hundred cables takes one hundredth of it.
const INFLATED: u64 = 32 << 20;
/// The most parts that it may have.
const PARTS: usize = 1000;
/// The most sheets.
const SHEETS: usize = 100;
/// The most cells that hold something.
const CELLS: usize = 100_000;
/// The most cells that are looked at, those that hold nothing with them.
const LOOKED_AT: usize = 2_000_000;
/// The most bytes of text in a cell, as much as spreadsheets themselves let stand in one (32,767 signs, from memory).
const TEXT: usize = 4 * 32_767;
/// The most bytes of text in all cells: one long text may stand in every cell and be in the file once.
const TEXTS: usize = 32 << 20;
/// The last row and the last column in which something may stand.
const LAST: (u32, u32) = (10_000, 500);

/// A spreadsheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Workbook {
    /// Its sheets, in their order.
    pub sheets: Vec<Worksheet>,
}

/// A sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Worksheet {
    /// What its tab says.
    pub name: String,
    /// What its cells hold, by row and column, each from 0; without those that hold nothing.
    pub cells: BTreeMap<(u32, u32), Written>,
}

/// What a cell holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// It, as text, without spaces before and after.
    pub text: String,
    /// Whether it is a bare number.
    pub number: bool,
}

impl Worksheet {
    /// The text of a cell; empty when it holds nothing.
    #[must_use]
    pub fn text(&self, row: u32, column: u32) -> &str {
        self.cells.get(&(row, column)).map_or("", |written| written.text.as_str())
    }
}

/// A cell's name as a spreadsheet shows it: `B7`.
#[must_use]
pub fn cell_name(row: u32, column: u32) -> String {
    let mut letters = String::new();
    let mut rest = column;
    loop {
        letters.insert(0, char::from(b'A' + u8::try_from(rest % 26).unwrap_or(0)));
        if rest < 26 {
            break;
        }
        rest = rest / 26 - 1;
    }
    format!("{letters}{}", u64::from(row) + 1)
}

/// Reads a spreadsheet.
///
/// # Errors
/// When it is none, is damaged, or goes beyond what is read.
pub fn workbook(bytes: &[u8]) -> Result<Workbook, FileFault> {
    if bytes.len() > BYTES {
        return Err(fault("this spreadsheet is larger than 8 MB", "take out pictures and what is not of the form"));
    }
    bounded(bytes)?;
    let damaged = |error: calamine::XlsxError| {
        fault(&format!("this is no spreadsheet that can be read: {error}"), "save it again as `.xlsx`")
    };
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(damaged)?;
    let names = book.sheet_names();
    if names.len() > SHEETS {
        return Err(fault("this spreadsheet has more than 100 sheets", "take out what is not of the form"));
    }
    let mut out = Workbook::default();
    let (mut left, mut looked_at, mut texts) = (CELLS, LOOKED_AT, TEXTS);
    for name in names {
        // A sheet without cells, a chart for example, holds nothing to read.
        let Ok(mut reader) = book.worksheet_cells_reader(&name) else { continue };
        let mut sheet = Worksheet { name, cells: BTreeMap::new() };
        while let Some(cell) = reader.next_cell().map_err(damaged)? {
            let (row, column) = cell.get_position();
            let too_much = || {
                let place = format!("{}, cell {}", sheet.name, cell_name(row, column));
                let message = format!("there is too much in this spreadsheet: {place}");
                fault(&message, "take out what is not of the form")
            };
            looked_at = looked_at.checked_sub(1).ok_or_else(too_much)?;
            let long = length(cell.get_value());
            texts = texts.checked_sub(long).filter(|_| long <= TEXT).ok_or_else(too_much)?;
            let Some(written) = written(cell.get_value()) else { continue };
            if left == 0 || row > LAST.0 || column > LAST.1 {
                return Err(too_much());
            }
            left -= 1;
            sheet.cells.insert((row, column), written);
        }
        out.sheets.push(sheet);
    }
    Ok(out)
}

/// Inflates every part into nothing, so that what is read afterwards can't be larger than this allows. The sizes that
/// a file states of itself are not believed.
fn bounded(bytes: &[u8]) -> Result<(), FileFault> {
    let none = |error: zip::result::ZipError| {
        fault(&format!("this is no spreadsheet: {error}"), "save the form as `.xlsx` and name that file")
    };
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(none)?;
    let too_large = || fault("this spreadsheet holds more than 32 MB", "take out what is not of the form");
    if archive.len() > PARTS {
        return Err(too_large());
    }
    let mut left = INFLATED;
    for at in 0..archive.len() {
        let part = archive.by_index(at).map_err(none)?;
        let read = std::io::copy(&mut part.take(left + 1), &mut std::io::sink());
        let read =
            read.map_err(|error| fault(&format!("this spreadsheet is damaged: {error}"), "save it again as `.xlsx`"))?;
        left = left.checked_sub(read).ok_or_else(too_large)?;
    }
    Ok(())
}

/// How many bytes the text of a cell has, before it is copied.
fn length(value: &DataRef<'_>) -> usize {
    match value {
        DataRef::String(text) | DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => text.len(),
        DataRef::SharedString(text) => text.len(),
        _ => 0,
    }
}

/// What a cell holds, as text; `None`: nothing.
fn written(value: &DataRef<'_>) -> Option<Written> {
    let (text, number) = match value {
        DataRef::Empty => return None,
        DataRef::Int(whole) => (whole.to_string(), true),
        DataRef::Float(number) => (number.to_string(), true),
        DataRef::String(text) | DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => (text.clone(), false),
        DataRef::SharedString(text) => ((*text).to_string(), false),
        DataRef::Bool(flag) => (if *flag { "yes" } else { "no" }.to_string(), false),
        DataRef::DateTime(day) => {
            let (year, month, day, ..) = day.to_ymd_hms_milli();
            (format!("{year:04}-{month:02}-{day:02}"), false)
        }
        DataRef::Error(error) => (error.to_string(), false),
    };
    let text = text.trim().to_string();
    (!text.is_empty()).then_some(Written { text, number })
}

fn fault(message: &str, help: &str) -> FileFault {
    FileFault { message: message.to_string(), help: help.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_have_the_names_that_spreadsheets_give_them() {
        let names =
            [((0, 0), "A1"), ((6, 1), "B7"), ((0, 25), "Z1"), ((0, 26), "AA1"), ((9, 701), "ZZ10"), ((0, 702), "AAA1")];
        for ((row, column), name) in names {
            assert_eq!(cell_name(row, column), name);
        }
    }
}
