//! Which surveys were asked for: files, folders, ids of the library.

use super::super::check::yaml_files;
use super::super::open::{Opened, open};
use super::super::place::{folder_for, is_library, library_of_survey};
use super::super::report::Report;
use crate::source::SourceFile;
use crate::wording::all_nearest;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// One survey to make a pack of.
#[derive(Debug)]
pub(in crate::cli) struct Task {
    /// Its file.
    pub(in crate::cli) source: SourceFile,
    /// Which of the libraries it is read against.
    pub(in crate::cli) library: usize,
    /// Where it is on disk.
    pub(in crate::cli) real: Option<PathBuf>,
}

/// The surveys that were asked for, in order, and what could not be found.
#[derive(Debug, Default)]
pub(in crate::cli) struct Wanted {
    pub(in crate::cli) libraries: Vec<Opened>,
    pub(in crate::cli) tasks: Vec<Task>,
    pub(in crate::cli) report: Report,
}

/// Finds every survey that is named. What can't be found is said, and the others go on.
pub(in crate::cli) fn wanted(library: Option<&PathBuf>, named: &[PathBuf]) -> Wanted {
    let mut wanted = Wanted::default();
    for path in named {
        if let Err(report) = wanted.add(library, path) {
            wanted.report.say(report.err, report.outcome);
        }
    }
    // A file that is named twice, or by a folder as well, is one survey.
    let mut seen = BTreeSet::new();
    wanted.tasks.retain(|task| task.real.clone().is_none_or(|real| seen.insert(real)));
    wanted
}

impl Wanted {
    fn add(&mut self, library: Option<&PathBuf>, path: &Path) -> Result<(), Report> {
        if fs::symlink_metadata(path).is_err() && is_word(path) {
            return self.by_id(library, &path.to_string_lossy());
        }
        fs::metadata(path)
            .map_err(|error| Report::machine(format!("error: can't read {}: {error}", path.display())))?;
        let folder = if path.is_dir() && is_library(path) { path.join("surveys") } else { path.to_path_buf() };
        let at = self.library(library.cloned().or_else(|| library_of_survey(&folder)))?;
        let files = yaml_files(&folder)?;
        let before = self.tasks.len();
        for file in files {
            let mut source = SourceFile::read(&file);
            if path.is_dir() && is_card(&source) {
                continue;
            }
            source.in_library = library_of_survey(&file).is_some();
            self.tasks.push(Task { source, library: at, real: Some(fs::canonicalize(&file).unwrap_or(file)) });
        }
        if self.tasks.len() == before {
            return Err(Report::content(format!("error: there is no survey in {}", folder.display())));
        }
        Ok(())
    }

    /// A survey of the library, by its id.
    fn by_id(&mut self, library: Option<&PathBuf>, id: &str) -> Result<(), Report> {
        let at = self.library(library.cloned())?;
        let Some(opened) = self.libraries.get(at) else { return Ok(()) };
        let place = format!("surveys/{id}.yaml");
        let shown = opened.files.shown(&place);
        let surveys = opened.files.surveys();
        if let Some(source) = surveys.iter().find(|source| source.path == shown).cloned() {
            let real = opened.root.as_ref().map(|root| root.join(&place));
            let real = real.map(|path| fs::canonicalize(&path).unwrap_or(path));
            self.tasks.push(Task { source, library: at, real });
            return Ok(());
        }
        let ids = opened.files.files.keys().filter_map(|path| path.strip_prefix("surveys/")?.strip_suffix(".yaml"));
        let near = all_nearest(id, ids);
        let hint = if near.is_empty() { String::new() } else { format!("\nDid you mean {}?", near.join(", or ")) };
        Err(Report::content(format!("error: there is no file and no survey of the library called \"{id}\"{hint}")))
    }

    /// Where the library of this folder is in the list, opened if it is new.
    fn library(&mut self, root: Option<PathBuf>) -> Result<usize, Report> {
        if let Some(at) = self.libraries.iter().position(|opened| opened.root == root) {
            return Ok(at);
        }
        self.libraries.push(open(root)?);
        Ok(self.libraries.len() - 1)
    }
}

/// Whether a name could be an id: one word, no folders, no ending.
fn is_word(path: &Path) -> bool {
    path.components().count() == 1 && path.extension().is_none() && path.file_name().is_some()
}

/// Whether a file of a folder is a card, which makes no pack.
fn is_card(source: &SourceFile) -> bool {
    let text = source.bytes.as_ref().ok().and_then(|bytes| std::str::from_utf8(bytes).ok());
    text.and_then(folder_for).is_some()
}
