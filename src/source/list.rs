//! The names in a library's folders, without opening a file.

use super::files::{FOLDERS, has_ending, is_content};
use super::picture::is_picture;
use std::fs;
use std::path::Path;

/// What stands for a folder that is there and can't be looked into.
const CLOSED: &str = ".";

/// What lies in a folder of a library.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Listed {
    /// The files that are read or refused by their names, sorted; `.` alone for a folder that can't be looked into.
    pub files: Vec<String>,
    /// The folders that are looked into, sorted.
    pub folders: Vec<String>,
}

/// What lies in a folder of the library `dir`, given the folder's path below it; empty for the library's own. Surveys
/// are left out: they are no part of what the cards say.
#[must_use]
pub fn list(dir: &Path, folder: &str) -> Listed {
    match folder {
        "" => top(dir),
        "notes" => {
            let (closed, folders) = names(&dir.join(folder)).into_iter().partition(|name| name == CLOSED);
            Listed { files: closed, folders }
        }
        _ => inner(dir, folder),
    }
}

/// The names of the pictures in a folder of the library `dir`, sorted.
#[must_use]
pub fn list_pictures(dir: &Path, folder: &str) -> Vec<String> {
    if !folder.starts_with("notes/") {
        return Vec::new();
    }
    names(&dir.join(folder)).into_iter().filter(|name| is_picture(&format!("{folder}/{name}"))).collect()
}

fn top(dir: &Path) -> Listed {
    let is_there = |name: &&str| fs::symlink_metadata(dir.join(name)).is_ok();
    let folders = FOLDERS.into_iter().chain(["notes"]).filter(|name| *name != "surveys").filter(is_there);
    let mut folders: Vec<String> = folders.map(str::to_string).collect();
    folders.sort_unstable();
    Listed { files: ["terms.yaml"].into_iter().filter(is_there).map(str::to_string).collect(), folders }
}

fn inner(dir: &Path, folder: &str) -> Listed {
    let on_disk = dir.join(folder);
    let is_read = |name: &String| name == CLOSED || is_content(&format!("{folder}/{name}")) || has_ending(name, "yml");
    let (files, others): (Vec<String>, Vec<String>) = names(&on_disk).into_iter().partition(is_read);
    // Folders within a folder of cards are refused when there are cards in them, so they are watched; deeper ones are not.
    let is_inside = folder.contains('/') && !folder.starts_with("notes/");
    let folders = others.into_iter().filter(|name| !is_inside && on_disk.join(name).is_dir());
    Listed { files, folders: folders.collect() }
}

/// The names in a folder, sorted. Hidden files are left out.
fn names(on_disk: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(on_disk) else { return vec![CLOSED.to_string()] };
    let entries = entries.filter_map(Result::ok);
    let names = entries.map(|entry| entry.file_name().to_string_lossy().into_owned());
    let mut names: Vec<String> = names.filter(|name| !name.starts_with('.')).collect();
    names.sort_unstable();
    names
}
