//! `wirelore readings`: what was read on site goes back into its survey, held against what the test sheet expects.

use super::args::Readings;
use super::check::counted;
use super::note::needs_library;
use super::open::open;
use super::pack::build::view;
use super::pack::{pool, surveys};
use super::replace::hold;
use super::report::{Ended, Outcome, Report};
use crate::check::{self, readings};
use crate::diagnostics::{Fault, draw};
use crate::edit::{self, Refusal};
use crate::model::{Library, Survey, Visit};
use crate::pack::as_left;
use crate::pack::test_sheet::{Held, Measure};
use crate::source::{Node, SourceFile, text_of};
use crate::wording::{clean, listed};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Brings readings in, unless the survey would have a fault that it does not have now.
pub(super) fn run(library: Option<&PathBuf>, asked: &Readings) -> Ended {
    let mut wanted = surveys::wanted(library, std::slice::from_ref(&asked.survey));
    if wanted.report.outcome != Outcome::Done {
        return Err(wanted.report);
    }
    let (Some(task), true) = (wanted.tasks.pop(), wanted.tasks.is_empty()) else {
        return Err(Report::wrong_usage("error: readings go into one survey: name its file or its id"));
    };
    let (Some(root), Some(path)) = (wanted.libraries.get(task.library), &task.real) else {
        return Err(needs_library("readings are kept in"));
    };
    let opened = open(root.clone())?;
    let source = task.read();
    let survey = checked(&opened.library, &source)?;
    let (block, visit) = of_survey(&asked.file, &survey.survey)?;
    let sheet = expected(&opened.library, &survey)?;
    let shown = &source.path;
    let failed = |what: &str, error: &std::io::Error| Report::machine(format!("error: can't {what} {shown}: {error}"));
    let held = hold(path).map_err(|error| failed("read", &error))?;
    let text = text_of(shown, &held.bytes).map_err(|fault| Report::content(draw(&fault, false)))?;
    let edited = edit::as_left(shown, text, &block).map_err(|refusal| refused(shown, refusal))?;
    let changed = edit::changed(text, &edited);
    let edited_source = SourceFile { bytes: Ok(edited.clone().into_bytes()), ..source.clone() };
    checked(&opened.library, &edited_source)?;
    let mut report = told(&sheet, &visit);
    if changed.is_empty() {
        report.out.insert_str(0, &format!("Nothing to change: {shown} says so already\n"));
    } else {
        held.replace(path, edited.as_bytes()).map_err(|error| failed("write", &error))?;
        report.out.insert_str(0, &format!("{shown}, {}", edit::lines(&changed)));
    }
    opened.warn(&mut report);
    Ok(report)
}

/// A survey without faults.
fn checked(library: &Library, source: &SourceFile) -> Result<Survey, Report> {
    let checked = check::survey(library, source);
    checked.value.ok_or_else(|| drawn(&checked.faults))
}

fn drawn(faults: &[Fault]) -> Report {
    let drawn: String = faults.iter().map(|fault| draw(fault, false) + "\n").collect();
    Report::content(format!("{drawn}Nothing was changed, for {}", counted(faults.len(), "fault")))
}

/// What a file of readings has for a survey.
fn of_survey(file: &Path, survey: &str) -> Result<(Node, Visit), Report> {
    let shown = file.display().to_string();
    let bytes = SourceFile::read(file).bytes.map_err(|fault| {
        Report::machine(format!("error: {}\n --> {shown}\n  = help: {}", fault.message, fault.help))
    })?;
    let checked = readings(&shown, &bytes);
    if !checked.faults.is_empty() {
        return Err(drawn(&checked.faults));
    }
    let mut all = checked.value;
    if let Some(found) = all.remove(survey) {
        return Ok(found);
    }
    let others: Vec<&str> = all.keys().map(String::as_str).collect();
    let has =
        if others.is_empty() { "It has none.".to_owned() } else { format!("It has those of {}.", listed(&others)) };
    Err(Report::content(format!("error: {shown} has no readings of {survey}\n{has}")))
}

/// The rows of the survey's test sheet.
fn expected(library: &Library, survey: &Survey) -> Result<Vec<Measure>, Report> {
    let view = pool(1)?.install(|| view(library, survey, None));
    let view = view.map_err(|text| Report::content(format!("error: {}: {text}", survey.survey)))?;
    Ok(view.test_sheet.stages.into_iter().flat_map(|stage| stage.rows).collect())
}

fn refused(shown: &str, refusal: Refusal) -> Report {
    match refusal {
        Refusal::Fault(fault) => Report::content(draw(&fault, false)),
        Refusal::Wish(message, help) => Report::content(format!("error: {shown}: {message}\nInstead: {help}")),
    }
}

/// What each reading is to its window, those outside first.
fn told(sheet: &[Measure], visit: &Visit) -> Report {
    let mut report = Report::default();
    let (mut outside, mut lines, mut within, mut loose) = (0, String::new(), 0, 0);
    let rows: Vec<&Measure> = sheet.iter().collect();
    for left in visit.readings.iter().filter(|left| left.read.is_some()) {
        match as_left::hold(&rows, left) {
            Ok(Held::Within) => within += 1,
            Ok(Held::NoWindow) => loose += 1,
            Ok(Held::Outside) => {
                outside += 1;
                let must = sheet.iter().find(|row| row.no == left.row).map_or("", |row| row.must.text.as_str());
                let _ = writeln!(lines, "OUTSIDE  {} {}: must read {must}", left.row, clean(&left.what));
            }
            Err(why) => {
                outside += 1;
                let _ = writeln!(lines, "NOT HELD {} {}: {why}", left.row, clean(&left.what));
            }
        }
    }
    let _ =
        writeln!(lines, "{within} within the window, {outside} outside or not to be held, {loose} without a window");
    report.out = lines;
    if outside > 0 {
        report.say("", Outcome::Content);
    }
    report
}
