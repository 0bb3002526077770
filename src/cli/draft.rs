//! `wirelore new card panel ID --from TABLE`: a card begun from a table of terminals.

use super::args::CardKind;
use super::check::counted;
use super::id::new_id;
use super::new::{folder_of, new_file};
use super::note::needs_library;
use super::open::open;
use super::ordinary;
use super::report::{Ended, Outcome, Report};
use super::table::table as lined_up;
use crate::draft::{CellFault, Draft, Wish, draft};
use crate::source::{TABLE_BYTES, Table, table};
use std::fmt::Write as _;
use std::io;
use std::path::{Path, PathBuf};

/// What is asked for.
#[derive(Debug)]
pub(super) struct Asked {
    /// The table's file.
    pub(super) table: PathBuf,
    /// Columns that the user names.
    pub(super) columns: Vec<(String, String)>,
}

/// How many rows that are no terminals are shown.
const SHOWN: usize = 20;

/// Reads a table and writes the card that it begins, unless a cell of it is wrong.
pub(super) fn run(library: Option<PathBuf>, kind: CardKind, id: &str, asked: &Asked) -> Ended {
    new_id(id)?;
    if !matches!(kind, CardKind::Panel | CardKind::Board | CardKind::Supply) {
        return Err(Report::wrong_usage("error: --from is for what has terminals: a panel, a board or a supply"));
    }
    let opened = open(library)?;
    let Some(root) = opened.root.clone() else { return Err(needs_library("a new card goes into")) };
    let shown = asked.table.display().to_string();
    let read = read(&asked.table, &shown)?;
    let (word, folder) = folder_of(kind);
    let wish = Wish { kind: word, id, file: &shown, columns: &asked.columns };
    let drafted = draft(&read, &opened.library.terms, &wish).map_err(|faults| refused(&shown, &faults))?;
    let path = new_file(word, id, Some(&root), folder, &drafted.text)?;
    let mut report = Report::done(told(&shown, &read, &drafted, &asked.columns) + &next(&path));
    opened.warn(&mut report);
    Ok(report)
}

/// Reads the table, as many bytes of it as one may have.
fn read(path: &Path, shown: &str) -> Result<Table, Report> {
    let failed = |error: io::Error| Report::machine(format!("error: can't read {shown}: {error}"));
    let most = u64::try_from(TABLE_BYTES).unwrap_or(u64::MAX).saturating_add(1);
    let bytes = ordinary::first(path, most).map_err(failed)?;
    table(&bytes)
        .map_err(|fault| Report::content(format!("error: {}\n --> {shown}\n  = help: {}", fault.message, fault.help)))
}

fn refused(shown: &str, faults: &[CellFault]) -> Report {
    let drawn: String = faults.iter().map(|fault| drawn(shown, fault)).collect();
    let count = counted(faults.len(), "fault");
    let mut report = Report::default();
    report.say(format!("{drawn}{count} in {shown}; no card was written"), Outcome::Content);
    report
}

/// A fault beside the cell in which it is.
fn drawn(shown: &str, fault: &CellFault) -> String {
    let found: String = fault.found.chars().take(100).collect();
    let found = if found.is_empty() { found } else { format!("  | {found}\n") };
    format!("error: {}\n --> {shown}, {}\n{found}  = help: {}\n\n", fault.message, fault.place, fault.help)
}

/// How the table was read, column by column, and what of it is no terminal.
fn told(shown: &str, table: &Table, drafted: &Draft, named: &[(String, String)]) -> String {
    let heads = drafted.heads.as_ref().map_or("no row of heads".to_owned(), |place| format!("heads in {place}"));
    let row = |column: &crate::draft::Column| {
        let taken = column.field.unwrap_or("nothing: a comment in the draft");
        let by = if named.iter().any(|(field, _)| Some(field.as_str()) == column.field) { "named" } else { "guessed" };
        let by = if column.field.is_some() { by } else { "" };
        vec![(column.at + 1).to_string(), column.head.clone(), taken.to_owned(), by.to_owned()]
    };
    let rows: Vec<Vec<String>> = drafted.columns.iter().map(row).collect();
    let columns = lined_up(&["column", "head", "taken for", ""], &rows);
    let mut out = format!("Read {shown}: {}; {heads}\n{columns}", table.how);
    let left = drafted.left.len();
    let _ = writeln!(out, "{} terminals; {} to confirm", drafted.terminals, counted(drafted.proposed, "group"));
    if left > 0 {
        let _ = writeln!(out, "{} without a terminal, kept as comments:", counted(left, "row"));
    }
    for line in drafted.left.iter().take(SHOWN) {
        let _ = writeln!(out, "  {line}");
    }
    if left > SHOWN {
        let _ = writeln!(out, "  and {} more", left - SHOWN);
    }
    out
}

/// What was written, and what comes next.
fn next(path: &Path) -> String {
    let path = path.display();
    format!(
        "Wrote {path}\nAre the columns others? Delete that file and run this again with --columns mark=1,does=2\n\
         Next: hold it against the manual or the board; `wirelore check {path}` says what is missing\n"
    )
}
