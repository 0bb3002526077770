//! `wirelore index`: one index over the packs of several folders, as several machines or several offices made them.

use super::super::args::Index;
use super::super::check::counted;
use super::super::ordinary;
use super::super::report::{Ended, Outcome, Report};
use super::{gaps, templates, write};
use crate::pack::{self, Row};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Component, Path, PathBuf};

/// The rows of every folder as one index.
pub(in crate::cli) fn run(index: &Index) -> Ended {
    let templates = templates::read(index.templates.as_deref())?;
    let mut report = Report::default();
    let (mut rows, mut gaps, mut dates) = (Vec::new(), Vec::new(), BTreeSet::new());
    for folder in &index.folders {
        match rows_of(folder, &index.out) {
            Ok((more, (lines, date))) => {
                rows.extend(more);
                gaps.extend(lines);
                dates.insert(date);
            }
            Err(failed) => report.say(failed.err, failed.outcome),
        }
    }
    if report.outcome != Outcome::Done {
        report.say("error: no index was written", report.outcome);
        return Err(report);
    }
    rows.sort_by(|a, b| (&a.survey, &a.folder).cmp(&(&b.survey, &b.folder)));
    tell_doubles(&rows, &mut report);
    let gaps = gaps::added(gaps.iter().map(String::as_str));
    // Folders of different days have no day in common from which notes grow old.
    let date = dates.pop_first().flatten().filter(|_| dates.is_empty());
    let files = templates::made(index.templates.as_deref(), || super::index::files(&rows, &gaps, date, &templates))
        .map_err(|wrong| Report::content(format!("error: {wrong}")))?;
    write::folder(&index.out)?;
    for (name, bytes) in files {
        let failed = |error| Report::machine(format!("error: can't write {}: {error}", index.out.join(name).display()));
        write::lone(&index.out, name, &bytes).map_err(failed)?;
    }
    let ready = rows.iter().filter(|row| row.ready).count();
    let folders = counted(index.folders.len(), "folder");
    let _ = writeln!(
        report.out,
        "{} of {folders}: {ready} ready, {} not.",
        counted(rows.len(), "pack"),
        rows.len() - ready
    );
    let _ = writeln!(report.out, "Open {} in a browser.", index.out.join("index.html").display());
    Ok(report)
}

/// The lines of what cards do not know, and the date that packs print.
type Gaps = (Vec<String>, Option<Date>);

/// The rows of a folder's index, each with the way to that folder, and its gaps.
fn rows_of(folder: &Path, out: &Path) -> Result<(Vec<Row>, Gaps), Report> {
    let path = folder.join("index.json");
    let hint = format!("`wirelore pack SURVEYS -o {}` writes it", folder.display());
    let bytes = ordinary::whole(&path)
        .map_err(|error| Report::machine(format!("error: can't read {}: {error}; {hint}", path.display())))?;
    let rows = pack::rows(&bytes).map_err(|error| {
        let (line, column) = (error.line(), error.column());
        Report::content(format!(
            "error: {}:{line}:{column}: this is no index of packs: {error}; {hint}",
            path.display()
        ))
    })?;
    let way = way(out, folder).filter(|way| !way.is_empty()).ok_or_else(|| {
        let text = "the index of all would take the place of this folder's own: name another folder with -o";
        Report::wrong_usage(format!("error: {}: {text}", folder.display()))
    })?;
    let placed = |row: Row| Row { folder: joined(&way, &row.folder), ..row };
    Ok((rows.into_iter().map(placed).collect(), gaps::of_index(&bytes)))
}

/// The way from one folder to another, with `/` between its parts; empty when they are one.
fn way(from: &Path, to: &Path) -> Option<String> {
    let (from, to) = (whole(from)?, whole(to)?);
    let shared = from.components().zip(to.components()).take_while(|(a, b)| a == b).count();
    let up = from.components().skip(shared).map(|_| "..".to_string());
    let down = to.components().skip(shared).map(|part| part.as_os_str().to_string_lossy().into_owned());
    Some(up.chain(down).collect::<Vec<_>>().join("/"))
}

/// The absolute path of a folder that need not be there yet.
fn whole(folder: &Path) -> Option<PathBuf> {
    if let Ok(whole) = fs::canonicalize(folder) {
        return Some(whole);
    }
    let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match folder.components().next_back()? {
        Component::Normal(name) => Some(whole(parent)?.join(name)),
        _ => None,
    }
}

fn joined(way: &str, folder: &str) -> String {
    if folder.is_empty() { way.to_string() } else { format!("{way}/{folder}") }
}

/// A survey whose pack lies in two folders: one of them is old, and nobody but the user knows which.
fn tell_doubles(rows: &[Row], report: &mut Report) {
    let mut folders: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for row in rows {
        folders.entry(&row.survey).or_default().push(&row.folder);
    }
    for (survey, folders) in folders.into_iter().filter(|(_, folders)| folders.len() > 1) {
        let text = format!("error: the pack {survey} is in {}: remove all but one", folders.join(" and in "));
        report.say(text, Outcome::Content);
    }
}
