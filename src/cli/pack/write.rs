//! Writes packs so that none is ever half there: everything is written beside, in a folder of its own, and renamed.

use super::super::report::Report;
use crate::pack::pictures;
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// The folders of a pack, each with how the names of our files in it begin and end. What else is in them is the user's.
const FOLDERS: [(&str, &str, &str); 2] = [("drawings", "", ".svg"), (pictures::FOLDER, pictures::OURS, "")];

/// Makes the folder for all packs.
///
/// # Errors
/// When it can't be made, or nothing can be written into it.
pub(in crate::cli) fn folder(out: &Path) -> Result<(), Report> {
    let failed = |error: io::Error| {
        let hint = if out.is_file() { ": this is a file, where a folder is due" } else { "" };
        Report::machine(format!("error: can't write into {}{hint}: {error}", out.display()))
    };
    fs::create_dir_all(out).map_err(failed)?;
    beside(out).map(drop).map_err(failed)
}

/// Puts a pack's files into the folder `id` below `out`. Files that are not the pack's stay where they are.
///
/// # Errors
/// When the disk is full, the folder can't be written, or a file is in the way; an old pack is then still whole.
pub(in crate::cli) fn pack(out: &Path, id: &str, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    let target = real(&out.join(id))?;
    let beside = beside(target.parent().unwrap_or(out))?;
    let new = beside.path().join("new");
    fs::create_dir(&new)?;
    for (name, bytes) in files {
        let path = new.join(name);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        write(&path, bytes)?;
    }
    if fs::symlink_metadata(&target).is_err() {
        return fs::rename(&new, &target);
    }
    let old = beside.path().join("old");
    fs::rename(&target, &old)?;
    if let Err(error) = fs::rename(&new, &target) {
        // The old pack goes back; should that fail too, it stays beside instead of being cleared away.
        if fs::rename(&old, &target).is_err() {
            let _ = beside.keep();
        }
        return Err(error);
    }
    if let Err(error) = keep_others(&old, &target, files) {
        let kept = beside.keep();
        return Err(io::Error::new(error.kind(), format!("{error}; files of yours are now in {}", kept.display())));
    }
    Ok(())
}

/// Writes one file of `out` whole.
///
/// # Errors
/// When the disk is full or the file can't be replaced.
pub(in crate::cli) fn file(out: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    let beside = beside(out)?;
    let new = beside.path().join(name);
    write(&new, bytes)?;
    fs::rename(&new, out.join(name))
}

/// A folder of our own on the same disk, cleared away when it is dropped.
fn beside(folder: &Path) -> io::Result<TempDir> {
    tempfile::Builder::new().prefix(".wirelore-").tempdir_in(folder)
}

/// Where a pack's folder really is: a link to a folder is followed, a file is refused.
fn real(target: &Path) -> io::Result<PathBuf> {
    if fs::symlink_metadata(target).is_err() {
        return Ok(target.to_path_buf());
    }
    let real = fs::canonicalize(target)?;
    if !real.is_dir() {
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, "a file is in the way of the pack's folder"));
    }
    Ok(real)
}

fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = fs::File::create(path)?;
    file.write_all(bytes)?;
    // A disk may say that it is full only when the bytes are really put down.
    file.sync_all()
}

/// Moves what is not the pack's own from the old folder to the new one: photographs, a signed sheet.
fn keep_others(old: &Path, new: &Path, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    for entry in fs::read_dir(old)? {
        let name = entry?.file_name();
        let is_ours = name.to_str().is_some_and(|name| files.contains_key(name));
        let folder = FOLDERS.iter().find(|(folder, ..)| name == *folder && old.join(&name).is_dir());
        if let Some((folder, begins, ends)) = folder {
            keep_beside_ours(&old.join(folder), &new.join(folder), |name| {
                name.starts_with(begins) && name.ends_with(ends)
            })?;
        } else if !is_ours {
            fs::rename(old.join(&name), new.join(&name))?;
        }
    }
    Ok(())
}

/// Moves what is the user's out of an old folder of ours: a drawing that a pack no longer has must not stay, nor a picture
/// that was taken out of the library.
fn keep_beside_ours(old: &Path, new: &Path, is_ours: impl Fn(&str) -> bool) -> io::Result<()> {
    for entry in fs::read_dir(old)? {
        let name = entry?.file_name();
        if !name.to_str().is_some_and(&is_ours) {
            fs::create_dir_all(new)?;
            fs::rename(old.join(&name), new.join(&name))?;
        }
    }
    Ok(())
}
