//! The blanks of a form, found by the keys that stand with them.

use super::CellFault;
use super::tree::Leaf;
use crate::check::keys::{Key, SURVEY, Shape};
use crate::check::sheet::spelling;
use crate::check::starter::inner;
use crate::source::{Workbook, Worksheet, cell_name};
use std::collections::BTreeMap;

/// Where something is written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Place {
    pub(super) sheet: String,
    pub(super) cell: String,
    pub(super) found: String,
}

/// The blanks of a form.
#[derive(Debug, Default)]
pub(super) struct Blanks {
    /// The single ones, by key, the empty ones too.
    pub(super) fields: BTreeMap<String, Leaf>,
    /// The tables.
    pub(super) tables: Vec<Rows>,
    pub(super) faults: Vec<CellFault>,
    pub(super) left_out: Vec<String>,
}

/// The rows of a table.
#[derive(Debug)]
pub(super) struct Rows {
    /// The key of each column, with its place; columns that only say something have none.
    pub(super) keys: Vec<String>,
    /// Each row's cells, as long as the keys, the empty ones too; rows in which nothing is written are left out.
    pub(super) rows: Vec<Vec<Leaf>>,
}

impl Rows {
    /// Whether the table has a column for this key.
    pub(super) fn has(&self, key: &str) -> bool {
        self.keys.iter().any(|own| own == key)
    }

    /// A row's cells for a key.
    pub(super) fn of<'r>(&'r self, row: &'r [Leaf], key: &'r str) -> impl Iterator<Item = &'r Leaf> {
        self.keys.iter().zip(row).filter(move |(own, _)| own.as_str() == key).map(|(_, leaf)| leaf)
    }

    /// A row's first cell for a key.
    pub(super) fn one(&self, row: &[Leaf], key: &str) -> Leaf {
        self.keys.iter().zip(row).find(|(own, _)| own.as_str() == key).map(|(_, leaf)| leaf.clone()).unwrap_or_default()
    }
}

/// The heads of the sheet of single blanks.
const HEADS: [&str; 3] = ["Write here", "Unit", "Key"];

/// A table's keys stand in one of so many first rows, and its units in the row below.
const KEY_ROWS: u32 = 10;

impl Blanks {
    /// Finds every blank of a form.
    pub(super) fn read(book: &Workbook) -> Self {
        let mut blanks = Self::default();
        for sheet in &book.sheets {
            if let Some(columns) = field_columns(sheet) {
                blanks.fields(sheet, columns);
            } else if let Some(row) = (0..KEY_ROWS).find(|row| is_key_row(sheet, *row)) {
                blanks.table(sheet, row);
            } else if !["Read first", "Lists"].contains(&sheet.name.as_str()) && !sheet.cells.is_empty() {
                blanks.left_out.push(format!("the sheet {}: it is none of the form's", sheet.name));
            }
        }
        blanks
    }

    fn fields(&mut self, sheet: &Worksheet, [value, unit, key]: [u32; 3]) {
        let rows: Vec<u32> = sheet.cells.keys().map(|(row, _)| *row).filter(|row| *row > 0).collect();
        let mut rows = rows;
        rows.dedup();
        for row in rows {
            let name = sheet.text(row, key).to_string();
            let leaf = leaf(sheet, row, value, sheet.text(row, unit), key_of(&name));
            if name.is_empty() {
                if !leaf.text.is_empty() {
                    let help = "write it in a row that has a key, or take it out";
                    self.faults.push(CellFault::at(
                        &leaf.place,
                        "this cell has no key, so nobody knows what it is",
                        help,
                    ));
                }
                continue;
            }
            if key_of(&name).is_none() {
                let place = Place { sheet: sheet.name.clone(), cell: cell_name(row, key), found: name.clone() };
                self.faults.push(unknown(&place, &name));
                continue;
            }
            if let Some(first) = self.fields.get(&name) {
                let message = format!("the key `{name}` is here twice; the first is in cell {}", first.place.cell);
                self.faults.push(CellFault::at(&leaf.place, message, "keep one of them"));
                continue;
            }
            self.fields.insert(name, leaf);
        }
    }

    fn table(&mut self, sheet: &Worksheet, key_row: u32) {
        let last = sheet.cells.keys().map(|(_, column)| *column).max().unwrap_or(0);
        let keys: Vec<String> = (0..=last).map(|column| sheet.text(key_row, column).to_string()).collect();
        for (column, name) in (0..).zip(&keys) {
            if !name.is_empty() && key_of(name).is_none() {
                let place = Place { sheet: sheet.name.clone(), cell: cell_name(key_row, column), found: name.clone() };
                self.faults.push(unknown(&place, name));
            }
        }
        let units: Vec<&str> = (0..=last).map(|column| sheet.text(key_row + 1, column)).collect();
        let mut rows: Vec<u32> = sheet.cells.keys().map(|(row, _)| *row).filter(|row| *row > key_row + 1).collect();
        rows.dedup();
        let rows = rows.into_iter().map(|row| {
            let cells = (0..).zip(keys.iter().zip(&units));
            cells.map(|(column, (key, unit))| leaf(sheet, row, column, unit, key_of(key))).collect()
        });
        self.tables.push(Rows { rows: rows.collect(), keys });
    }
}

/// The columns of the sheet of single blanks, by their heads; `None`: this is no such sheet.
fn field_columns(sheet: &Worksheet) -> Option<[u32; 3]> {
    let column = |head: &str| {
        let mut first = sheet.cells.iter().filter(|((row, _), _)| *row == 0);
        first.find(|(_, written)| written.text == head).map(|((_, column), _)| *column)
    };
    let [value, unit, key] = HEADS.map(column);
    Some([value?, unit?, key?])
}

/// Whether a row holds the keys of a table.
fn is_key_row(sheet: &Worksheet, row: u32) -> bool {
    let cells = sheet.cells.range((row, 0)..(row + 1, 0));
    cells.into_iter().any(|(_, written)| written.text.contains('.') && key_of(&written.text).is_some())
        || ["readings", "fuses"]
            .iter()
            .any(|map| sheet.cells.range((row, 0)..(row + 1, 0)).any(|(_, w)| w.text == *map))
}

fn unknown(place: &Place, name: &str) -> CellFault {
    let keys = super::super::survey_keys();
    let known: Vec<&str> = keys.iter().map(|key| key.path.as_str()).collect();
    CellFault::at(place, format!("a survey has no key `{name}`"), spelling(name, &known))
}

/// The key at a path. The names of a map have its path and what they are called: `readings mark`.
pub(super) fn key_of(path: &str) -> Option<&'static Key> {
    let (path, names) = path.split_once(' ').map_or((path, None), |(path, names)| (path, Some(names)));
    let mut block = &SURVEY;
    let mut parts = path.split('.').peekable();
    while let Some(part) = parts.next() {
        let key = block.key(part)?;
        if parts.peek().is_none() {
            let called = if let Shape::Map(called, _) = key.shape { Some(called) } else { None };
            return (names.is_none() || names == called).then_some(key);
        }
        block = inner(key.shape)?;
    }
    None
}

/// What a cell holds, as a survey writes it for a key: with the unit of a bare number, a flag as `true` or `false`.
fn leaf(sheet: &Worksheet, row: u32, column: u32, unit: &str, key: Option<&Key>) -> Leaf {
    let text = sheet.text(row, column).to_string();
    let place = Place { sheet: sheet.name.clone(), cell: cell_name(row, column), found: text.clone() };
    let shape = key.map_or(Shape::Text, |key| key.shape);
    let text = match shape {
        Shape::Flag => flag(&text),
        Shape::Quantity(_) | Shape::Positive(_) | Shape::OneOrWindow(_) | Shape::QuantityOr(..) => {
            let unit = unit.split_whitespace().next().unwrap_or_default();
            if is_bare(&text) && !unit.is_empty() { format!("{text} {unit}") } else { text }
        }
        _ => text,
    };
    Leaf { text, place }
}

fn flag(text: &str) -> String {
    match text.to_lowercase().as_str() {
        "yes" | "true" => "true".into(),
        "no" | "false" => "false".into(),
        _ => text.to_string(),
    }
}

/// Whether a text is a number without a unit.
fn is_bare(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_digit()) && text.parse::<f64>().is_ok()
}
