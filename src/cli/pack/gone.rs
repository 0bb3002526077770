//! Packs whose surveys are gone.

use super::look::Looked;
use super::surveys::Task;
use crate::store::{PackSeen, Packs};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

/// The ids of the packs whose surveys are no more, or have another id now.
pub(super) fn gone(packs: &Packs, tasks: &[Task], looked: &[Looked]) -> Vec<String> {
    let here: BTreeMap<&str, Option<&str>> =
        tasks.iter().zip(looked).map(|(task, looked)| (task.place(), looked.id())).collect();
    let is_gone = |(id, pack): &(&String, &PackSeen)| match pack.survey.as_str() {
        "" => false,
        place => match here.get(place) {
            Some(now) => now.is_some_and(|now| now != *id),
            None => fs::symlink_metadata(place).is_err_and(|error| error.kind() == ErrorKind::NotFound),
        },
    };
    packs.packs.iter().filter(is_gone).map(|(id, _)| id.clone()).collect()
}

/// Removes a pack's files, and its folder when nothing else lies in it. Gives whether the folder is gone.
///
/// # Errors
/// When a file of it can't be removed.
pub(super) fn remove<'n>(folder: &Path, names: impl Iterator<Item = &'n str>) -> io::Result<bool> {
    let mut folders: BTreeSet<&Path> = BTreeSet::from([Path::new("")]);
    for name in names {
        done(fs::remove_file(folder.join(name)))?;
        folders.extend(Path::new(name).parent());
    }
    for inner in folders.iter().rev() {
        // What is not ours keeps its folder.
        let _ = fs::remove_dir(folder.join(inner));
    }
    Ok(fs::symlink_metadata(folder).is_err())
}

/// What is not there need not be removed.
fn done(result: io::Result<()>) -> io::Result<()> {
    match result {
        Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => Ok(()),
        result => result,
    }
}
