//! `wirelore new survey ID --from sheet.xlsx`: a filled-in form becomes a survey file.

use super::check::counted;
use super::id::new_id;
use super::new::{is_library, new_file};
use super::open::open;
use super::ordinary;
use super::report::{Ended, Outcome, Report};
use crate::check::{CellFault, form_survey};
use crate::source::workbook;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// What is read of a file at most: one byte more than a form may have.
const READ: u64 = (8 << 20) + 1;

/// Reads a form and writes the survey that it gives, unless something in it is wrong.
pub(super) fn run(library: Option<PathBuf>, id: &str, form: &Path) -> Ended {
    new_id(id)?;
    if let Some(root) = &library {
        is_library(root)?;
    }
    let shown = form.display();
    let bytes =
        ordinary::first(form, READ).map_err(|error| Report::machine(format!("error: can't read {shown}: {error}")))?;
    let book = workbook(&bytes).map_err(|fault| {
        Report::content(format!("error: {}\n --> {shown}\n  = help: {}", fault.message, fault.help))
    })?;
    let root = library.clone();
    let opened = open(library)?;
    let mut report = Report::default();
    opened.warn(&mut report);
    let read = form_survey(&opened.library, &book, id);
    if !read.faults.is_empty() {
        let drawn: String = read.faults.iter().map(|fault| drawn(form, fault)).collect();
        let count = counted(read.faults.len(), "fault");
        report.say(format!("{drawn}{count} in {shown}; no survey was written"), Outcome::Content);
        return Err(report);
    }
    let path = new_file("survey", id, root.as_deref(), "surveys", &read.text)?;
    for left in &read.left_out {
        report.say(format!("note: left out {left}"), Outcome::Done);
    }
    let _ = write!(report.out, "Wrote {path}\nNext: wirelore pack {path}\n", path = path.display());
    Ok(report)
}

/// A fault beside the cell in which it is.
fn drawn(form: &Path, fault: &CellFault) -> String {
    let mut text = format!("error: {}\n --> {}", fault.message, form.display());
    if !fault.sheet.is_empty() {
        let _ = write!(text, ", sheet {}", fault.sheet);
    }
    if !fault.cell.is_empty() {
        let _ = write!(text, ", cell {}", fault.cell);
    }
    if !fault.found.is_empty() {
        let short: String = fault.found.lines().next().unwrap_or_default().chars().take(100).collect();
        let _ = write!(text, "\n  | {short}");
    }
    if !fault.help.is_empty() {
        let _ = write!(text, "\n  = help: {}", fault.help);
    }
    text + "\n\n"
}
