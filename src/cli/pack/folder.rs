//! The folder for the packs, opened when it is there, else when the first pack is written: a run that writes nothing
//! leaves nothing behind.

use super::super::report::Report;
use super::write;
use crate::store::{Closed, Out, Packs, Root};
use std::path::Path;
use std::sync::OnceLock;

/// The folder for the packs.
#[derive(Debug)]
pub(super) struct Folder<'a> {
    pub(super) path: &'a Path,
    opened: OnceLock<Result<Open, Report>>,
}

/// The folder, with the right to write into it.
#[derive(Debug)]
pub(super) struct Open {
    pub(super) out: Out,
    /// The same folder, to look at files in it.
    pub(super) root: Root,
}

impl<'a> Folder<'a> {
    /// The folder, and what is kept of the packs in it.
    ///
    /// # Errors
    /// When another run writes into it, or it can't be written.
    pub(super) fn new(path: &'a Path) -> Result<(Self, Packs), Report> {
        let folder = Self { path, opened: OnceLock::new() };
        if std::fs::symlink_metadata(path).is_err() {
            return Ok((folder, Packs::default()));
        }
        let packs = folder.open().map_err(Clone::clone)?.out.read();
        Ok((folder, packs))
    }

    /// The folder, made if it is not there.
    ///
    /// # Errors
    /// When another run writes into it, or it can't be written.
    pub(super) fn open(&self) -> Result<&Open, &Report> {
        self.opened.get_or_init(|| opened(self.path)).as_ref()
    }

    /// The folder, when it is open already.
    pub(super) fn if_open(&self) -> Option<&Open> {
        self.opened.get()?.as_ref().ok()
    }
}

fn opened(path: &Path) -> Result<Open, Report> {
    let busy =
        || Report::machine(format!("error: another run is writing into {}: wait until it has ended", path.display()));
    let out = Out::open(path).map_err(|closed| match closed {
        Closed::Busy => busy(),
        Closed::Refused(error) => write::cannot_write(path, &error),
    })?;
    let root = Root::open(path).map_err(|error| write::cannot_write(path, &error))?;
    Ok(Open { out, root })
}
