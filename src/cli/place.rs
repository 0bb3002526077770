//! Where a path stands: in a library or outside one, a card or a survey.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// The folders of a library that hold cards and rules, each with the kind of its cards.
pub(super) const CARD_FOLDERS: [(&str, &str); 6] = [
    ("panels", "panel"),
    ("boards", "board"),
    ("devices", "device"),
    ("cables", "cable"),
    ("supplies", "supply"),
    ("rules", "rules"),
];

/// Whether a folder is a library, by the folders in it.
pub(super) fn is_library(dir: &Path) -> bool {
    CARD_FOLDERS.iter().any(|(folder, _)| dir.join(folder).is_dir())
}

/// Refuses a folder of a library, there or still to be made, that a link leads out of it: what is written there would be
/// written elsewhere.
///
/// # Errors
/// When it does, or can't be looked at.
pub(super) fn lies_within(library: &Path, folder: &Path) -> io::Result<()> {
    let there = folder.ancestors().find(|part| fs::symlink_metadata(part).is_ok()).unwrap_or(library);
    if fs::canonicalize(there)?.starts_with(fs::canonicalize(library)?) {
        return Ok(());
    }
    Err(io::Error::other("a link leads out of the library"))
}

/// For a card, a note, the terms, or a folder of them: the library around it, and the path in that library.
pub(super) fn in_library(path: &Path) -> Option<(PathBuf, String)> {
    let whole = fs::canonicalize(path).ok()?;
    let mut below: Vec<String> = Vec::new();
    for part in whole.ancestors() {
        let name = part.file_name()?.to_str()?;
        below.insert(0, name.to_string());
        let is_cards = CARD_FOLDERS.iter().any(|(folder, _)| *folder == name) || name == "notes";
        let is_place = is_cards || (name == "terms.yaml" && below.len() == 1);
        if is_place && is_library(part.parent()?) {
            return Some((above(path, below.len())?, below.join("/")));
        }
    }
    None
}

/// For a survey in a library's `surveys` folder, or that folder: the library.
pub(super) fn library_of_survey(path: &Path) -> Option<PathBuf> {
    let whole = fs::canonicalize(path).ok()?;
    let up = if whole.is_dir() { 1 } else { 2 };
    let folder = whole.ancestors().nth(up - 1)?;
    let is_there = folder.file_name()? == "surveys" && is_library(folder.parent()?);
    is_there.then(|| above(path, up)).flatten()
}

/// The folder `up` steps above a path, written as the user wrote the path where that is possible.
fn above(path: &Path, up: usize) -> Option<PathBuf> {
    let is_plain = !path.components().any(|part| part.as_os_str() == "..");
    match path.ancestors().nth(up).filter(|_| is_plain) {
        Some(typed) if typed.as_os_str().is_empty() => Some(PathBuf::from(".")),
        Some(typed) => Some(typed.to_path_buf()),
        None => fs::canonicalize(path).ok()?.ancestors().nth(up).map(Path::to_path_buf),
    }
}

/// For the text of a card or of rules, the folder of a library where it would lie; nothing for a survey. Only looks
/// at keys that begin a line: what is wrong in the text is for `check` to say.
pub(super) fn folder_for(text: &str) -> Option<&'static str> {
    let value = |key: &str| {
        let rest = text.lines().find_map(|line| line.strip_prefix(key)?.trim_start().strip_prefix(':'))?;
        Some(rest.split('#').next().unwrap_or_default().trim().trim_matches(['"', '\'']))
    };
    if value("survey").is_some() {
        return None;
    }
    let kind = match value("kind") {
        Some(kind) => kind,
        None if value("grades").is_some() => "rules",
        None => return None,
    };
    CARD_FOLDERS.iter().find(|(_, word)| *word == kind).map(|(folder, _)| *folder)
}
