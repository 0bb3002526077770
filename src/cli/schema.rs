//! `wirelore schema`: JSON Schemas for editors, printed and put beside a library.

use super::find::json_text;
use super::report::{Ended, Report};
use crate::check::{SCHEMAS, schema};
use std::fs;
use std::io;
use std::path::Path;

/// The folder of a library that holds its schemas. Hidden: nothing in it is a card.
const FOLDER: &str = ".schemas";

/// Prints the schema of a kind of file.
pub(super) fn run(kind: &str) -> Ended {
    match text(kind) {
        Some(text) => Ok(Report::done(text)),
        None => Err(Report::wrong_usage(format!("error: there is no schema of kind {kind}"))),
    }
}

fn text(kind: &str) -> Option<String> {
    schema(kind).map(|schema| json_text(&schema))
}

/// The comment that tells an editor which schema a file in a folder of the library keeps to.
pub(super) fn modeline(kind: &str) -> String {
    format!("# yaml-language-server: $schema=../{FOLDER}/{kind}.json\n")
}

/// Puts every schema beside a library.
pub(super) fn write_all(library: &Path) -> io::Result<()> {
    SCHEMAS.iter().try_for_each(|kind| write(library, kind))
}

/// Puts one schema beside a library, unless it is there already.
pub(super) fn write(library: &Path, kind: &str) -> io::Result<()> {
    let folder = library.join(FOLDER);
    let path = folder.join(format!("{kind}.json"));
    let Some(text) = text(kind).filter(|_| !path.exists()) else { return Ok(()) };
    fs::create_dir_all(&folder)?;
    // Whole or not at all: somebody else may start a card at this moment.
    let beside = tempfile::Builder::new().prefix(".wirelore-").tempdir_in(&folder)?;
    let new = beside.path().join(kind);
    fs::write(&new, text)?;
    fs::rename(&new, &path)
}
