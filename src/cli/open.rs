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

fn cannot_open(dir: &Path, error: &std::io::Error) -> Report {
    Report::machine(format!("error: can't open the library {}: {error}", dir.display()))
}

impl Opened {
    /// Whether a file of it can't be read for reasons of the machine, permissions for example.
    pub(super) fn outcome(&self) -> Outcome {
        let Some(root) = &self.root else { return Outcome::Done };
        let refused = self.files.files.iter().filter(|(_, bytes)| bytes.is_err()).map(|(path, _)| root.join(path));
        if refused.into_iter().any(|path| cannot_read(&path)) { Outcome::Machine } else { Outcome::Done }
    }

    /// Says on standard error that some cards have faults: they are not in the library that the command sees.
    pub(super) fn warn(&self, report: &mut Report) {
        if !self.faults.is_empty() {
            let count = self.faults.len();
            let faults = if count == 1 { "1 fault".to_string() } else { format!("{count} faults") };
            let text = format!("warning: {faults} in the library; what has faults is left out: see `wirelore check`");
            report.say(text, self.outcome());
        }
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
