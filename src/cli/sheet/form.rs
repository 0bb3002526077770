//! The form beside a sheet: like the survey file, it never takes the place of one in which something was typed.

use super::super::ordinary;
use super::super::report::Report;
use crate::pack::sheet::Wanted;
use crate::pack::sheet::form::form;
use crate::render;
use crate::source::{Workbook, workbook};
use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::Path;

/// What it is called.
const NAME: &str = "sheet.xlsx";

/// Adds the form to a sheet's files, unless one is there in which something was typed; gives back its name when it was
/// kept for that.
///
/// # Errors
/// When a card holds more than fits into a cell.
pub(super) fn add(
    files: &mut BTreeMap<String, Vec<u8>>,
    place: &Path,
    wanted: &Wanted<'_>,
) -> Result<Option<&'static str>, Report> {
    let there = match ordinary::whole(&place.join(NAME)) {
        Ok(bytes) => Some(bytes),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(_) => return Ok(Some(NAME)),
    };
    if let Some(bytes) = there
        && !is_blank(&bytes, wanted)?
    {
        return Ok(Some(NAME));
    }
    files.insert(NAME.to_string(), made(wanted)?);
    Ok(None)
}

fn made(wanted: &Wanted<'_>) -> Result<Vec<u8>, Report> {
    render::form(&form(wanted)).map_err(|error| Report::content(format!("error: can't make {NAME}: {error}")))
}

/// Whether its cells say what a blank form of this panel says, with as many cables and the board that it has itself.
fn is_blank(bytes: &[u8], wanted: &Wanted<'_>) -> Result<bool, Report> {
    let Ok(there) = workbook(bytes) else { return Ok(false) };
    let board = said(&there, "board").and_then(|id| wanted.library.boards.get(id));
    let cables = there.sheets.iter().find(|sheet| sheet.name == "Cables");
    let cables = cables.map_or(0, |sheet| sheet.cells.keys().filter(|(row, column)| *row > 2 && *column == 0).count());
    let blank = workbook(&made(&Wanted { board, cables, ..*wanted })?);
    Ok(blank.is_ok_and(|blank| blank == there))
}

/// What a form says at a key.
fn said<'b>(book: &'b Workbook, key: &str) -> Option<&'b str> {
    let sheet = book.sheets.iter().find(|sheet| sheet.name == "Survey")?;
    let (row, _) = sheet.cells.iter().find(|((_, column), written)| *column == 5 && written.text == key)?.0;
    Some(sheet.text(*row, 2))
}
