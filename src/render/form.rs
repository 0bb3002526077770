//! A survey form as a spreadsheet: `sheet.xlsx`. Every cell is text, so that nothing in it is ever taken for a formula or
//! a date, and the same form has the same bytes.

use crate::pack::sheet::form::{Field, FormView, Table};
use rust_xlsxwriter::{
    Color, DataValidation, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook,
    Worksheet, XlsxError,
};
use std::collections::BTreeMap;

/// The heads of the sheet of single blanks. `Write here`, `Unit` and `Key` are those by which it is read back.
const FIELD_HEADS: [(&str, u16); 6] =
    [("Stage", 24), ("What", 22), ("Write here", 36), ("Unit", 8), ("How", 70), ("Key", 26)];

/// The sheet on which the words to choose from stand.
const LISTS: &str = "Lists";

/// A form as the bytes of a spreadsheet.
///
/// # Errors
/// When the spreadsheet can't be made: its writer says why.
pub fn form(view: &FormView) -> Result<Vec<u8>, String> {
    bytes(view).map_err(|error| error.to_string())
}

fn bytes(view: &FormView) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    // The writer would ask the clock.
    let made = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(
        &DocProperties::new().set_title(format!("Survey: {}", view.title)).set_creation_datetime(&made),
    );
    let looks = Looks::new();
    let mut lists = Lists::default();
    first(book.add_worksheet(), view, &looks)?;
    fields(book.add_worksheet(), &view.fields, &looks, &mut lists)?;
    for table in &view.tables {
        sheet(book.add_worksheet(), table, &looks, &mut lists)?;
    }
    lists.write(book.add_worksheet(), &looks)?;
    book.save_to_buffer()
}

/// How cells look. All are text.
struct Looks {
    said: Format,
    head: Format,
    blank: Format,
    key: Format,
}

impl Looks {
    fn new() -> Self {
        let said = Format::new().set_num_format("@").set_text_wrap().set_align(FormatAlign::Top);
        let line = Color::RGB(0x80_80_80);
        Self {
            head: said.clone().set_bold().set_background_color(Color::RGB(0xE8_E8_E8)).set_border(FormatBorder::Thin),
            blank: said.clone().set_border(FormatBorder::Thin).set_border_color(line),
            key: said.clone().set_font_color(line),
            said,
        }
    }
}

/// Lists of words to choose from, each in a column of a sheet of its own.
#[derive(Default)]
struct Lists {
    columns: BTreeMap<Vec<String>, u16>,
}

impl Lists {
    /// Lets the cells of a column be chosen from these words; others can still be written.
    fn offer(&mut self, at: &mut Worksheet, rows: (u32, u32), column: u16, words: &[String]) -> Result<(), XlsxError> {
        if words.is_empty() {
            return Ok(());
        }
        let next = u16::try_from(self.columns.len()).unwrap_or(u16::MAX);
        let place = *self.columns.entry(words.to_vec()).or_insert(next);
        let letter = letters(place);
        let formula = Formula::new(format!("={LISTS}!${letter}$1:${letter}${}", words.len()));
        let choice = DataValidation::new().allow_list_formula(formula).ignore_blank(true).show_error_message(false);
        at.add_data_validation(rows.0, column, rows.1, column, &choice)?;
        Ok(())
    }

    fn write(self, at: &mut Worksheet, looks: &Looks) -> Result<(), XlsxError> {
        at.set_name(LISTS)?.set_hidden(true);
        for (words, column) in self.columns {
            for (row, word) in (0..).zip(words) {
                at.write_string_with_format(row, column, word, &looks.said)?;
            }
        }
        Ok(())
    }
}

/// A column's letters.
fn letters(column: u16) -> String {
    let letter = |n: u16| char::from(b'A' + u8::try_from(n % 26).unwrap_or(0));
    if column < 26 { letter(column).to_string() } else { format!("{}{}", letter(column / 26 - 1), letter(column)) }
}

/// What must be read first.
fn first(at: &mut Worksheet, view: &FormView, looks: &Looks) -> Result<(), XlsxError> {
    at.set_name("Read first")?.set_column_width(0, 110)?;
    at.write_string_with_format(0, 0, format!("Survey: {}", view.title), &looks.head)?;
    for (row, line) in (1..).zip(&view.first) {
        at.write_string_with_format(row, 0, line, &looks.said)?;
    }
    Ok(())
}

fn fields(at: &mut Worksheet, fields: &[Field], looks: &Looks, lists: &mut Lists) -> Result<(), XlsxError> {
    at.set_name("Survey")?.set_freeze_panes(1, 0)?;
    for (column, (head, width)) in (0..).zip(FIELD_HEADS) {
        at.set_column_width(column, width)?;
        at.write_string_with_format(0, column, head, &looks.head)?;
    }
    for (row, field) in (1..).zip(fields) {
        let said = [(0, &field.stage), (1, &field.what), (3, &field.unit), (4, &field.how)];
        for (column, text) in said {
            at.write_string_with_format(row, column, text, &looks.said)?;
        }
        at.write_string_with_format(row, 2, &field.value, &looks.blank)?;
        at.write_string_with_format(row, 5, &field.key, &looks.key)?;
        lists.offer(at, (row, row), 2, &field.words)?;
    }
    Ok(())
}

/// A table: heads, keys, units, then its rows.
fn sheet(at: &mut Worksheet, table: &Table, looks: &Looks, lists: &mut Lists) -> Result<(), XlsxError> {
    const ROWS: u32 = 3;
    at.set_name(table.name)?.set_freeze_panes(ROWS, 0)?;
    let last = ROWS + u32::try_from(table.room.max(table.rows.len())).unwrap_or(u32::MAX).saturating_sub(1);
    for (column, shown) in (0..).zip(&table.columns) {
        at.set_column_width(column, shown.width)?;
        at.write_string_with_format(0, column, shown.head, &looks.head)?;
        at.write_string_with_format(1, column, shown.key, &looks.key)?;
        at.write_string_with_format(2, column, shown.unit, &looks.key)?;
        let look = if shown.key.is_empty() { &looks.said } else { &looks.blank };
        for (row, at_row) in (ROWS..=last).zip(0..) {
            let text = table.rows.get(at_row).and_then(|row| row.get(usize::from(column)));
            at.write_string_with_format(row, column, text.map_or("", String::as_str), look)?;
        }
        lists.offer(at, (ROWS, last), column, &shown.words)?;
    }
    Ok(())
}
