//! What is known of sites: those of the library's surveys, and those of a folder that the user names.

use super::check::yaml_files;
use super::open::Opened;
use super::report::Report;
use crate::check;
use crate::guard::Guard;
use crate::source::SourceFile;
use std::path::Path;

/// The surveys of the library, then those of the folder.
///
/// # Errors
/// When the folder can't be looked into.
pub(super) fn surveys(opened: &Opened, folder: Option<&Path>) -> Result<Vec<SourceFile>, Report> {
    let mut surveys = opened.files.surveys();
    if let Some(folder) = folder {
        surveys.extend(yaml_files(folder)?.iter().map(|file| SourceFile::read(file)));
    }
    Ok(surveys)
}

/// A guard that knows the sites of these surveys.
///
/// # Errors
/// When the folder can't be looked into.
pub(super) fn guard(opened: &Opened, folder: Option<&Path>) -> Result<Guard, Report> {
    Ok(Guard::new(&check::sites(&surveys(opened, folder)?)))
}
