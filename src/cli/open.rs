//! Opens the library that a command works on.

use super::report::{Outcome, Report};
use crate::check::{self, Checked};
use crate::diagnostics::Fault;
use crate::model::Library;
use crate::source::Files;
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
    let files = match &root {
        None => Files::embedded(),
        Some(dir) => {
            fs::read_dir(dir).map_err(|error| cannot_open(dir, &error))?;
            Files::from_dir(dir)
        }
    };
    let Checked { value: library, faults } = check::library(&files);
    Ok(Opened { root, files, library, faults })
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
