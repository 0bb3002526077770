//! Opens the library that a command works on.

use super::report::{Outcome, Report};
use crate::check::{self, Checked, Looked};
use crate::diagnostics::Fault;
use crate::model::Library;
use crate::source::Files;
use rayon::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};

/// A library with where it came from.
#[derive(Debug)]
pub(super) struct Opened {
    /// The folder; `None`: the demo library in the program, which can't be written.
    pub(super) root: Option<PathBuf>,
    /// Its files.
    pub(super) files: Files,
    /// Its cards without faults.
    pub(super) library: Library,
    /// The faults of the others.
    pub(super) faults: Vec<Fault>,
}

/// Reads and checks a library; without a folder, the demo library in the program.
///
/// # Errors
/// When the folder can't be looked into.
pub(super) fn open(root: Option<PathBuf>) -> Result<Opened, Report> {
    open_files(root, Files::from_dir)
}

fn open_files(root: Option<PathBuf>, read: impl Fn(&Path) -> Files) -> Result<Opened, Report> {
    open_root(root.as_deref())?;
    let files = root.as_deref().map_or_else(Files::embedded, read);
    let Checked { value: library, faults } = check::library_by(&files, &spread);
    Ok(Opened { root, files, library, faults })
}

/// Whether a library's folder can be looked into.
///
/// # Errors
/// When it can't.
pub(super) fn open_root(root: Option<&Path>) -> Result<(), Report> {
    let Some(dir) = root else { return Ok(()) };
    fs::read_dir(dir).map(drop).map_err(|error| cannot_open(dir, &error))
}

/// Fewer files than this are looked at sooner than threads are started.
const FEW: usize = 200;

/// Looks at the files of a library on all cores.
pub(super) fn spread(count: usize, look: &(dyn Fn(usize) -> Looked + Sync)) -> Vec<Looked> {
    if count < FEW { (0..count).map(look).collect() } else { (0..count).into_par_iter().map(look).collect() }
}

/// That the folder can't be looked into.
pub(super) fn cannot_open(dir: &Path, error: &std::io::Error) -> Report {
    Report::machine(format!("error: can't open the library {}: {error}", dir.display()))
}

impl Opened {
    /// Whether a file of it can't be read for reasons of the machine, permissions for example.
    pub(super) fn outcome(&self) -> Outcome {
        let refused = self.files.files.iter().filter(|(_, bytes)| bytes.is_err());
        outcome(self.root.as_deref(), refused.map(|(path, _)| path.as_str()))
    }

    /// Says on standard error that some cards have faults: they are not in the library that the command sees.
    pub(super) fn warn(&self, report: &mut Report) {
        warn(self.faults.len(), || self.outcome(), report);
    }
}

/// Whether one of the files that could not be read can't be for reasons of the machine.
pub(super) fn outcome<'p>(root: Option<&Path>, refused: impl Iterator<Item = &'p str>) -> Outcome {
    let is_refused = root.is_some_and(|root| refused.map(|path| root.join(path)).any(|path| cannot_read(&path)));
    if is_refused { Outcome::Machine } else { Outcome::Done }
}

/// Says on standard error that a library has so many faults.
pub(super) fn warn(count: usize, outcome: impl Fn() -> Outcome, report: &mut Report) {
    if count > 0 {
        let faults = if count == 1 { "1 fault".to_string() } else { format!("{count} faults") };
        let text = format!("warning: {faults} in the library; what has faults is left out: see `wirelore check`");
        report.say(text, outcome());
    }
}

/// Whether the machine refuses to hand over what is at `path`: no permission, a broken disk, no ordinary file.
pub(super) fn cannot_read(path: &Path) -> bool {
    match fs::metadata(path) {
        Ok(about) if about.is_dir() => fs::read_dir(path).is_err(),
        // Opening a pipe would wait for a writer.
        Ok(about) => !about.is_file() || fs::File::open(path).is_err(),
        Err(_) => true,
    }
}
