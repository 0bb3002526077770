//! `wirelore check`: every fault of cards and surveys, the way a compiler tells them.

use super::again::{self, Before};
use super::find::json_text;
use super::open::{Opened, cannot_read, open};
use super::place::{folder_for, in_library, is_library, library_of_survey};
use super::report::{Ended, Outcome, Report};
use crate::check;
use crate::diagnostics::{Fault, draw, json, sort};
use crate::gaps::missing;
use crate::guard::{Guard, Site};
use crate::source::{SourceFile, ends_in_yaml};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// What was looked at, and what is wrong in it.
#[derive(Debug, Default)]
struct Found {
    faults: Vec<Fault>,
    /// The files that were looked at, as the user names them.
    files: BTreeSet<String>,
    /// What the machine would not do.
    machine: Report,
    /// The sites of the surveys that are checked.
    named: Vec<Site>,
    /// What cards that were asked for by name do not say yet: each card with it.
    missing: Vec<(String, Vec<String>)>,
}

/// The sites of all surveys among the paths: they are known before the first card is looked at.
fn named_surveys(paths: &[PathBuf]) -> Vec<Site> {
    let files = paths.iter().filter(|path| !is_library(path)).filter_map(|path| yaml_files(path).ok()).flatten();
    check::sites(&files.map(|file| SourceFile::read(&file)).collect::<Vec<_>>())
}

/// Checks the paths; without any, the whole library and its surveys.
pub(super) fn run(library: Option<PathBuf>, paths: &[PathBuf], as_json: bool, cache: bool) -> Ended {
    match paths {
        [] => of_library(library, as_json, cache),
        [path] if path.is_dir() && is_library(path) => of_library(Some(path.clone()), as_json, cache),
        _ => Ok(of_paths(library.as_ref(), paths, as_json)),
    }
}

/// Each path by itself.
fn of_paths(library: Option<&PathBuf>, paths: &[PathBuf], as_json: bool) -> Report {
    let mut found = Found { named: named_surveys(paths), ..Found::default() };
    for path in paths {
        if let Err(report) = found.path(library, path) {
            found.machine.say(report.err, report.outcome);
        }
    }
    told(found).report(as_json)
}

/// The whole library with its surveys; one in which nothing has changed is not read.
fn of_library(library: Option<PathBuf>, as_json: bool, cache: bool) -> Ended {
    let again = match library.as_ref().filter(|_| cache).map(|root| again::before(root, as_json)) {
        Some(Before::Told(report)) => return Ok(report),
        Some(Before::Open(again)) => again,
        None => None,
    };
    let opened = open(library)?;
    let mut found = Found::default();
    found.library(&opened);
    let told = told(found);
    // What the machine refuses may be allowed the next time without a trace in the file.
    if let Some(again) = again.filter(|_| told.machine.outcome == Outcome::Done) {
        again.keep(&opened.files, &told);
    }
    Ok(told.report(as_json))
}

impl Found {
    /// One path: a library, a folder of cards or surveys, a card, a survey.
    fn path(&mut self, library: Option<&PathBuf>, path: &Path) -> Result<(), Report> {
        if let Err(error) = fs::metadata(path) {
            return Err(Report::machine(format!("error: can't read {}: {error}", path.display())));
        }
        if path.is_dir() && is_library(path) {
            self.library(&open(Some(path.to_path_buf()))?);
            return Ok(());
        }
        if let Some((root, below)) = in_library(path) {
            self.cards(&open(Some(root))?, &below, path);
            return Ok(());
        }
        let around = open(library.cloned().or_else(|| library_of_survey(path)))?;
        for file in yaml_files(path)? {
            self.file(&around, &file);
        }
        Ok(())
    }

    /// The whole library with its surveys.
    fn library(&mut self, opened: &Opened) {
        self.machine.say("", opened.outcome());
        self.faults.extend(opened.faults.iter().cloned());
        let private = self.private(opened, |_| true);
        self.faults.extend(private);
        self.faults.extend(check::pictures(&opened.files, &self.guard(opened)));
        let paths = opened.files.files.keys().chain(opened.files.pictures.keys());
        self.files.extend(paths.map(|path| opened.files.shown(path)));
        for survey in opened.files.surveys() {
            self.survey(opened, &survey);
        }
    }

    /// A guard that knows the sites of the library's surveys and of those that are checked.
    fn guard(&self, opened: &Opened) -> Guard {
        Guard::new(&[check::sites(&opened.files.surveys()), self.named.clone()].concat())
    }

    /// A file outside the library: a survey, or a card that wants a library around it.
    fn file(&mut self, around: &Opened, file: &Path) {
        let mut source = SourceFile::read(file);
        if source.bytes.is_err() && cannot_read(file) {
            self.machine.say("", Outcome::Machine);
        }
        let text = source.bytes.as_ref().ok().and_then(|bytes| std::str::from_utf8(bytes).ok());
        if let Some((text, folder)) = text.and_then(|text| Some((text, folder_for(text)?))) {
            self.lone_card(around, folder, file, &source, text);
            return;
        }
        source.in_library = library_of_survey(file).is_some();
        self.survey(around, &source);
    }

    fn survey(&mut self, opened: &Opened, survey: &SourceFile) {
        self.files.insert(survey.path.clone());
        self.faults.extend(check::survey(&opened.library, survey).faults);
    }

    /// A card that lies elsewhere, checked as if it lay in the library.
    fn lone_card(&mut self, around: &Opened, folder: &str, file: &Path, source: &SourceFile, text: &str) {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let place = format!("{folder}/{name}");
        let mut files = around.files.clone();
        files.files.insert(place.clone(), source.bytes.clone());
        let shown = files.shown(&place);
        let of_it = check::library(&files).faults.into_iter().filter(|fault| fault.file == shown);
        self.faults.extend(of_it.map(|fault| Fault { file: source.path.clone(), ..fault }));
        let private = check::private(&self.guard(around), &source.path, text);
        self.faults.extend(private);
        self.files.insert(source.path.clone());
    }

    /// What must not be shared in some of a library's files, looked for on all cores; in file order.
    fn private(&mut self, opened: &Opened, is_meant: impl Fn(&str) -> bool) -> Vec<Fault> {
        let guard = self.guard(opened);
        let paths: Vec<&str> = opened.files.files.keys().map(String::as_str).filter(|path| is_meant(path)).collect();
        let found = paths.par_iter().map(|path| check::private_file(&opened.files, &guard, path));
        let mut faults: Vec<Fault> = found.collect::<Vec<_>>().concat();
        sort(&mut faults);
        faults
    }

    /// The faults of one card, or of a folder of cards, out of those of the library around it.
    /// `path` is how the user wrote the place.
    fn cards(&mut self, opened: &Opened, below: &str, path: &Path) {
        let is_meant = |path: &str| path == below || path.strip_prefix(below).is_some_and(|rest| rest.starts_with('/'));
        let paths = opened.files.files.keys().chain(opened.files.pictures.keys()).filter(|path| is_meant(path));
        let meant: BTreeSet<String> = paths.map(|path| opened.files.shown(path)).collect();
        let is_short = !path.starts_with(".");
        let named = |file: &str| file.strip_prefix("./").filter(|_| is_short).unwrap_or(file).to_string();
        let private = self.private(opened, is_meant);
        let pictures = check::pictures(&opened.files, &self.guard(opened));
        let faults =
            opened.faults.iter().cloned().chain(private).chain(pictures).filter(|fault| meant.contains(&fault.file));
        self.faults.extend(faults.map(|fault| Fault { file: named(&fault.file), ..fault }));
        let root = opened.root.clone().unwrap_or_default();
        let mut refused = opened.files.files.iter().filter(|(path, bytes)| is_meant(path) && bytes.is_err());
        if refused.any(|(path, _)| cannot_read(&root.join(path))) {
            self.machine.say("", Outcome::Machine);
        }
        self.files.extend(meant);
        let card = Path::new(below).file_stem().filter(|_| path.is_file()).and_then(|stem| stem.to_str());
        let missing = card.map(|card| (card.to_owned(), missing(&opened.library, card)));
        self.missing.extend(missing.filter(|(_, missing)| !missing.is_empty()));
    }
}

/// A file, or every YAML file in a folder, sorted.
///
/// # Errors
/// When the folder can't be looked into.
pub(super) fn yaml_files(path: &Path) -> Result<Vec<PathBuf>, Report> {
    if !path.is_dir() {
        return Ok(vec![path.to_path_buf()]);
    }
    let failed = |error| Report::machine(format!("error: can't look into {}: {error}", path.display()));
    let mut files = Vec::new();
    for entry in fs::read_dir(path).map_err(failed)? {
        let file = entry.map_err(failed)?.path();
        if ends_in_yaml(&file.to_string_lossy()) {
            files.push(file);
        }
    }
    files.sort();
    Ok(files)
}

/// What is told in the end.
#[derive(Debug)]
pub(super) struct Told {
    /// Each fault drawn, and a count.
    pub(super) text: String,
    /// All of them as JSON.
    pub(super) json: String,
    pub(super) has_faults: bool,
    machine: Report,
}

fn told(found: Found) -> Told {
    let mut seen = BTreeSet::new();
    let is_new = |fault: &Fault| seen.insert((fault.file.clone(), fault.line, fault.column, fault.message.clone()));
    let faults: Vec<Fault> = found.faults.into_iter().filter(is_new).collect();
    let still: String = found.missing.iter().map(|(card, missing)| still_missing(card, missing)).collect();
    Told {
        text: drawn(&faults, found.files.len()) + &still,
        json: json_text(&json(&faults)),
        has_faults: faults.iter().any(|fault| !fault.is_warning),
        machine: found.machine,
    }
}

impl Told {
    fn report(self, as_json: bool) -> Report {
        let mut report = self.machine;
        if self.has_faults {
            report.say("", Outcome::Content);
        }
        report.out = if as_json { self.json } else { self.text };
        report
    }
}

fn drawn(faults: &[Fault], files: usize) -> String {
    let out: String = faults.iter().map(|fault| draw(fault, false) + "\n").collect();
    let files = counted(files, "file");
    let warnings = faults.iter().filter(|fault| fault.is_warning).count();
    match (faults.len() - warnings, warnings) {
        (0, 0) => format!("{files} checked, no faults\n"),
        (0, warnings) => format!("{out}{files} checked, no faults, {}\n", counted(warnings, "warning")),
        (count, 0) => format!("{out}{} in {files}\n", counted(count, "fault")),
        (count, warnings) => {
            format!("{out}{} and {} in {files}\n", counted(count, "fault"), counted(warnings, "warning"))
        }
    }
}

/// What a card without faults does not say yet: that is no fault, for what is not known is left out.
fn still_missing(card: &str, missing: &[String]) -> String {
    let lines: Vec<String> = missing.iter().map(|line| format!("  {line}\n")).collect();
    format!("\nNot known yet of {card}, worst first:\n{}", lines.concat())
}

/// A count with its noun.
pub(super) fn counted(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}
