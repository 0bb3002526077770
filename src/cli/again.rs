//! What `check` told of a whole library is told again while nothing in it has changed: neither a card nor a survey.

use super::cache;
use super::report::{Outcome, Report};
use crate::source::{self, Files};
use crate::store::{Manifest, Name, Place, Renewed, Told, hash};
use std::fs;
use std::path::{Path, PathBuf};

/// A library that is to be checked.
#[derive(Debug)]
pub(super) struct Again {
    root: PathBuf,
    place: Place,
    /// What lay in it before it was read.
    manifest: Manifest,
}

/// What is known of a library before it is checked.
#[derive(Debug)]
pub(super) enum Before {
    /// Nothing in it has changed: what was told.
    Told(Report),
    /// It must be checked; what is told then can be kept.
    Open(Option<Again>),
}

/// Looks at a library before it is checked.
pub(super) fn before(root: &Path, as_json: bool) -> Before {
    look(root, as_json).unwrap_or(Before::Open(None))
}

fn look(root: &Path, as_json: bool) -> Option<Before> {
    let place = cache::place(Some(root))?;
    let told = place.read(Name::Told).filter(|(told, _): &(Told, _)| told.root == shown(root));
    let (told, manifest) = told.unwrap_or_default();
    let renewed = renewed(root, &manifest)?;
    if renewed.same {
        return Some(Before::Told(report(&told, as_json)));
    }
    let Renewed { manifest, changed, .. } = renewed;
    if changed.is_empty() {
        let said = report(&told, as_json);
        keep(&place, &told, &manifest);
        return Some(Before::Told(said));
    }
    Some(Before::Open(Some(Again { root: root.to_path_buf(), place, manifest })))
}

impl Again {
    /// Keeps what was told of the library, whose files were these.
    pub(super) fn keep(mut self, files: &Files, told: &super::check::Told) {
        let hash_of = |path: &str| files.files.get(path).map(|bytes| bytes.as_ref().ok().map(|bytes| hash(bytes)));
        self.manifest.set_hashes(hash_of);
        keep(
            &self.place,
            &Told {
                root: shown(&self.root),
                text: told.text.clone(),
                json: told.json.clone(),
                has_faults: told.has_faults,
            },
            &self.manifest,
        );
    }
}

/// Keeps it if that can be done now.
fn keep(place: &Place, told: &Told, manifest: &Manifest) {
    if let Some(turn) = place.turn() {
        let _ = turn.set(Name::Told, told, manifest);
    }
}

fn report(told: &Told, as_json: bool) -> Report {
    let mut report = Report::done(if as_json { told.json.clone() } else { told.text.clone() });
    if told.has_faults {
        report.say("", Outcome::Content);
    }
    report
}

fn shown(root: &Path) -> String {
    root.to_string_lossy().into_owned()
}

/// The library looked at again, with its surveys; nothing when it can't be.
fn renewed(root: &Path, manifest: &Manifest) -> Option<Renewed> {
    fs::read_dir(root).ok()?;
    let list = |folder: &str| {
        let mut listed = source::list(root, folder);
        if folder.is_empty() && fs::symlink_metadata(root.join("surveys")).is_ok() {
            listed.folders.push("surveys".into());
        }
        // What is said of pictures depends on them, though nothing is looked up in them.
        listed.files.extend(source::list_pictures(root, folder));
        listed.files.sort_unstable();
        (listed.files, listed.folders)
    };
    manifest.renewed(root, &list, cache::now()).ok()
}
