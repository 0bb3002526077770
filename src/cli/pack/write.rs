//! Writes packs so that none is ever half new: everything is written elsewhere on the same disk, in a folder of its own,
//! and takes its place at one moment.

use super::super::report::Report;
use crate::pack::pictures;
use crate::render::DRAWINGS;
use crate::store::{self, Hash, Hashing};
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, BufWriter, IntoInnerError, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;
use tempfile::TempDir;

/// The folders of a pack, each with how the names of our files in it begin and end. What else is in them is the user's.
const FOLDERS: [(&str, &str, &str); 2] = [(DRAWINGS, "", ".svg"), (pictures::FOLDER, pictures::OURS, "")];

/// Makes the folder for all that is written.
///
/// # Errors
/// When it can't be made, or nothing can be written into it.
pub(in crate::cli) fn folder(out: &Path) -> Result<(), Report> {
    let failed = |error: io::Error| cannot_write(out, &error);
    fs::create_dir_all(out).map_err(failed)?;
    beside(out).map(drop).map_err(failed)
}

/// That nothing can be written into a folder.
pub(super) fn cannot_write(out: &Path, error: &io::Error) -> Report {
    let hint = if out.is_file() { ": this is a file, where a folder is due" } else { "" };
    Report::machine(format!("error: can't write into {}{hint}: {error}", out.display()))
}

/// Puts files into the folder `id` below `out`, as [`put`] does.
///
/// # Errors
/// The same.
pub(in crate::cli) fn pack(out: &Path, id: &str, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    let beside = beside(out)?;
    put(&out.join(id), &beside.path().join("new"), &beside.path().join("old"), files)
}

/// Puts a pack's files into the folder `target`. They are written at `new`, which must not exist, and `aside` is where
/// the old pack may lie for a moment, both on the same disk. Files that are not the pack's stay where they are.
///
/// # Errors
/// When the disk is full, the folder can't be written, or a file is in the way; an old pack is then still whole.
pub(super) fn put(target: &Path, new: &Path, aside: &Path, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    let Ok(about) = fs::symlink_metadata(target) else {
        return made(new, files).and_then(|()| fs::rename(new, target)).inspect_err(|_| drop(fs::remove_dir_all(new)));
    };
    if about.is_symlink() {
        // What a link names may lie on another disk: the pack is made there.
        let real = fs::canonicalize(target)?;
        let beside = beside(real.parent().unwrap_or(&real))?;
        return put(&real, &beside.path().join("new"), &beside.path().join("old"), files);
    }
    if !about.is_dir() {
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, "a file is in the way of the pack's folder"));
    }
    let exchanged = made(new, files)
        .and_then(|()| keep_others(target, new, files))
        .and_then(|()| fs::set_permissions(new, about.permissions()))
        .and_then(|()| store::exchange(new, target, aside));
    // At `new` is now the old pack, every file of it that is not ours linked into the new one; or what failed.
    let cleared = fs::remove_dir_all(new);
    exchanged.and(cleared)
}

/// Makes a file of pieces, so that not all of it need be held, and gives its hash; where it fails, there is none.
///
/// # Errors
/// When the disk is full or the folder can't be written.
pub(super) fn pieces(new: &Path, pieces: impl IntoIterator<Item: AsRef<[u8]>>) -> io::Result<Hash> {
    let mut hashing = Hashing::default();
    let pieces = pieces.into_iter().inspect(|piece| hashing.add(piece.as_ref()));
    write(new, pieces).inspect_err(|_| drop(fs::remove_file(new)))?;
    Ok(hashing.end())
}

/// Writes one file of a folder whole.
///
/// # Errors
/// When the disk is full or the file can't be replaced.
pub(in crate::cli) fn lone(out: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    let beside = beside(out)?;
    let new = beside.path().join(name);
    write(&new, [bytes])?;
    fs::rename(new, out.join(name))
}

/// A folder of our own on the same disk, cleared away when it is dropped.
fn beside(folder: &Path) -> io::Result<TempDir> {
    tempfile::Builder::new().prefix(".wirelore-").tempdir_in(folder)
}

/// Writes the files into a new folder.
fn made(new: &Path, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    fs::create_dir(new)?;
    let mut folder = PathBuf::new();
    for (name, bytes) in files {
        let path = new.join(name);
        if let Some(within) = path.parent().filter(|within| *within != new && *within != folder) {
            fs::create_dir_all(within)?;
            folder = within.to_path_buf();
        }
        write(&path, [bytes])?;
    }
    Ok(())
}

fn write(path: &Path, pieces: impl IntoIterator<Item: AsRef<[u8]>>) -> io::Result<()> {
    let mut file = BufWriter::new(fs::File::create(path)?);
    pieces.into_iter().try_for_each(|piece| file.write_all(piece.as_ref()))?;
    let file = file.into_inner().map_err(IntoInnerError::into_error)?;
    file.set_modified(SystemTime::now() - store::BACK)?;
    // Elsewhere it is put down with all others, when the run ends.
    if cfg!(target_os = "linux") { Ok(()) } else { file.sync_all() }
}

/// Links what is not the pack's own into the new folder too: photographs, a signed sheet. A drawing that a pack no longer
/// has is the pack's own.
fn keep_others(old: &Path, new: &Path, files: &BTreeMap<String, Vec<u8>>) -> io::Result<()> {
    for entry in fs::read_dir(old)? {
        let entry = entry?;
        let name = entry.file_name();
        let is_ours = name.to_str().is_some_and(|name| files.contains_key(name));
        let folder = FOLDERS.iter().find(|(folder, ..)| name == *folder && entry.file_type().is_ok_and(|t| t.is_dir()));
        if let Some((folder, begins, ends)) = folder {
            keep_beside_ours(&entry.path(), &new.join(folder), |name| {
                name.starts_with(begins) && name.ends_with(ends)
            })?;
        } else if !is_ours {
            link(&entry.path(), &new.join(&name))?;
        }
    }
    Ok(())
}

/// Links what is the user's of an old folder of ours into the new one: a drawing that a pack no longer has must not stay, nor a picture
/// that was taken out of the library.
fn keep_beside_ours(old: &Path, new: &Path, is_ours: impl Fn(&str) -> bool) -> io::Result<()> {
    for entry in fs::read_dir(old)? {
        let name = entry?.file_name();
        if !name.to_str().is_some_and(&is_ours) {
            fs::create_dir_all(new)?;
            link(&old.join(&name), &new.join(&name))?;
        }
    }
    Ok(())
}

/// The same file under a second name; a folder with all that is in it. Where a disk knows no second names, a copy.
fn link(from: &Path, to: &Path) -> io::Result<()> {
    let about = fs::symlink_metadata(from)?;
    if about.is_dir() {
        fs::create_dir(to)?;
        for entry in fs::read_dir(from)? {
            let name = entry?.file_name();
            link(&from.join(&name), &to.join(&name))?;
        }
        return fs::set_permissions(to, about.permissions());
    }
    match fs::hard_link(from, to) {
        Err(_) if about.is_file() => fs::copy(from, to).map(drop),
        result => result,
    }
}
