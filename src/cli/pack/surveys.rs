//! Which surveys were asked for: files, folders, ids of the library. None of them is read here.

use super::super::open::open_root;
use super::super::place::{folder_for, is_library, library_of_survey};
use super::super::report::Report;
use crate::check;
use crate::source::{Files, SourceFile, ends_in_yaml};
use crate::wording::all_nearest;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// One survey to make a pack of.
#[derive(Debug)]
pub(in crate::cli) struct Task {
    /// Its file, as the user names it.
    pub(in crate::cli) path: PathBuf,
    /// Which of the libraries it is read against.
    pub(in crate::cli) library: usize,
    /// Where it is on disk; `None`: it is inside the program.
    pub(in crate::cli) real: Option<PathBuf>,
    /// Whether it lies in a library's `surveys` folder.
    in_library: bool,
    /// The folder that was named, in which it was found.
    pub(super) folder: Option<PathBuf>,
    /// What is inside the program.
    embedded: Option<SourceFile>,
}

impl Task {
    /// A survey that is inside the program.
    fn embedded(source: SourceFile, library: usize) -> Self {
        let path = PathBuf::from(&source.path);
        Self { path, library, real: None, in_library: true, folder: None, embedded: Some(source) }
    }

    /// Reads it.
    pub(in crate::cli) fn read(&self) -> SourceFile {
        self.embedded.clone().unwrap_or_else(|| {
            let mut source = SourceFile::read(&self.path);
            source.in_library = self.in_library;
            source
        })
    }

    /// Its absolute path as kept beside its pack; empty for one that has none or none that is text.
    pub(super) fn place(&self) -> &str {
        self.real.as_deref().and_then(Path::to_str).unwrap_or_default()
    }

    /// Its file's name without the ending.
    pub(super) fn stem(&self) -> &str {
        self.path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default()
    }
}

/// The surveys that were asked for, in order, and what could not be found.
#[derive(Debug, Default)]
pub(in crate::cli) struct Wanted {
    /// The libraries' folders; `None`: the demo library inside the program.
    pub(in crate::cli) libraries: Vec<Option<PathBuf>>,
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
    wanted.tasks.retain(|task| task.real.clone().is_none_or(|real| seen.insert(real.into_os_string())));
    wanted
}

/// The surveys inside the program.
pub(super) fn demo() -> Wanted {
    let tasks = Files::embedded().surveys().into_iter().map(|source| Task::embedded(source, 0)).collect();
    Wanted { libraries: vec![None], tasks, report: Report::default() }
}

impl Wanted {
    fn add(&mut self, library: Option<&PathBuf>, path: &Path) -> Result<(), Report> {
        if fs::symlink_metadata(path).is_err() && is_word(path) {
            return self.by_id(library, &path.to_string_lossy());
        }
        fs::metadata(path)
            .map_err(|error| Report::machine(format!("error: can't read {}: {error}", path.display())))?;
        let folder = if path.is_dir() && is_library(path) { path.join("surveys") } else { path.to_path_buf() };
        let around = library_of_survey(&folder);
        let in_library = around.is_some();
        let at = self.library(library.cloned().or(around))?;
        if !folder.is_dir() {
            let real = Some(real(&folder));
            self.tasks.push(Task { path: folder, library: at, real, in_library, folder: None, embedded: None });
            return Ok(());
        }
        let files = surveys_in(&folder)?;
        if files.is_empty() {
            return Err(none_in(&folder));
        }
        let of_folder = |(path, real)| Task {
            path,
            library: at,
            real: Some(real),
            in_library,
            folder: Some(folder.clone()),
            embedded: None,
        };
        self.tasks.extend(files.into_iter().map(of_folder));
        Ok(())
    }

    /// A survey of the library, by its id.
    fn by_id(&mut self, library: Option<&PathBuf>, id: &str) -> Result<(), Report> {
        let at = self.library(library.cloned())?;
        let surveys = match library {
            None => Files::embedded().surveys(),
            Some(root) => Files::some(root, [format!("surveys/{id}.yaml")]).surveys(),
        };
        let stem =
            |source: &SourceFile| Path::new(&source.path).file_stem().map(|stem| stem.to_string_lossy().into_owned());
        if let Some(source) = surveys.into_iter().find(|source| stem(source).as_deref() == Some(id)) {
            let task = if library.is_none() {
                Task::embedded(source, at)
            } else {
                let path = PathBuf::from(source.path);
                let real = Some(real(&path));
                Task { path, library: at, real, in_library: true, folder: None, embedded: None }
            };
            self.tasks.push(task);
            return Ok(());
        }
        let ids: Vec<String> = match library {
            None => Files::embedded().surveys().iter().filter_map(stem).collect(),
            Some(root) => surveys_in(&root.join("surveys"))
                .unwrap_or_default()
                .iter()
                .filter_map(|(path, _)| path.file_stem().map(|stem| stem.to_string_lossy().into_owned()))
                .collect(),
        };
        let near = all_nearest(id, ids.iter().map(String::as_str));
        let hint = if near.is_empty() { String::new() } else { format!("\nDid you mean {}?", near.join(", or ")) };
        Err(Report::content(format!("error: there is no file and no survey of the library called \"{id}\"{hint}")))
    }

    /// Where the library of this folder is in the list, opened if it is new.
    fn library(&mut self, root: Option<PathBuf>) -> Result<usize, Report> {
        if let Some(at) = self.libraries.iter().position(|known| *known == root) {
            return Ok(at);
        }
        open_root(root.as_deref())?;
        self.libraries.push(root);
        Ok(self.libraries.len() - 1)
    }
}

/// That a folder holds no survey.
pub(super) fn none_in(folder: &Path) -> Report {
    Report::content(format!("error: there is no survey in {}", folder.display()))
}

/// The YAML files of a folder, sorted, each with where it is on disk. Only links are followed one by one.
fn surveys_in(folder: &Path) -> Result<Vec<(PathBuf, PathBuf)>, Report> {
    let failed = |error| Report::machine(format!("error: can't look into {}: {error}", folder.display()));
    let whole = fs::canonicalize(folder).map_err(failed)?;
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let name = entry.file_name();
        if ends_in_yaml(&name.to_string_lossy()) {
            names.push((name, entry.file_type().is_ok_and(|kind| kind.is_symlink())));
        }
    }
    // As names: comparing paths takes ten times as long.
    names.sort();
    let found = |(name, is_link)| {
        let path = folder.join(&name);
        let real = if is_link { real(&path) } else { whole.join(&name) };
        (path, real)
    };
    Ok(names.into_iter().map(found).collect())
}

/// Where a file really is.
fn real(path: &Path) -> PathBuf {
    fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf())
}

/// Whether a name could be an id: one word, no folders, no ending.
fn is_word(path: &Path) -> bool {
    path.components().count() == 1 && path.extension().is_none() && path.file_name().is_some()
}

/// Whether a file of a folder is a card, which makes no pack.
pub(super) fn is_card(source: &SourceFile) -> bool {
    text(source).and_then(folder_for).is_some()
}

/// The id that a survey gives itself, where it can be told.
pub(super) fn id_of(source: &SourceFile) -> Option<String> {
    let mut lines = text(source)?.lines().filter_map(|line| line.strip_prefix("survey:"));
    match (lines.next().map(str::trim), lines.next()) {
        // A plain word needs no reader.
        (Some(id), None) if super::super::id::is_id(id) => Some(id.to_string()),
        _ => check::read_survey(source).ok()?.id().map(str::to_string),
    }
}

fn text(source: &SourceFile) -> Option<&str> {
    std::str::from_utf8(source.bytes.as_ref().ok()?).ok()
}
