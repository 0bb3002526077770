//! `wirelore new`: starting files, which never take the place of a file that is there.

use super::args::CardKind;
use super::id::new_id;
use super::note::needs_library;
use super::place::lies_within;
use super::replace::create;
use super::report::{Ended, Report};
use super::schema;
use crate::check::{self, Checked};
use crate::source::Files;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Starts a card in the library's folder of its kind.
pub(super) fn card(library: Option<PathBuf>, kind: CardKind, id: &str) -> Ended {
    let Some(root) = library else { return Err(needs_library("a new card goes into")) };
    let (word, folder) = folder_of(kind);
    is_library(&root)?;
    start(word, id, Some(&root), folder)
}

/// The word for a kind of card, and the folder of a library where it lies.
pub(super) fn folder_of(kind: CardKind) -> (&'static str, &'static str) {
    match kind {
        CardKind::Panel => ("panel", "panels"),
        CardKind::Board => ("board", "boards"),
        CardKind::Device => ("device", "devices"),
        CardKind::Cable => ("cable", "cables"),
        CardKind::Supply => ("supply", "supplies"),
    }
}

/// Starts a survey in the library's `surveys` folder; without a library, in the folder one is in.
pub(super) fn survey(library: Option<PathBuf>, id: &str) -> Ended {
    let Some(root) = library else { return start("survey", id, None, "") };
    is_library(&root)?;
    start("survey", id, Some(&root), "surveys")
}

/// Makes a library with what is true everywhere: generic devices, cables, terms and rules; for practice, the whole demo
/// library.
pub(super) fn library(dir: &Path, demo: bool) -> Ended {
    let failed = |error: io::Error| Report::machine(format!("error: can't make {}: {error}", dir.display()));
    match fs::read_dir(dir) {
        Ok(mut entries) => {
            if entries.next().is_some() {
                return Err(Report::wrong_usage(format!("error: {} is there already and is not empty", dir.display())));
            }
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(failed(error)),
    }
    let parent = dir.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(parent).map_err(failed)?;
    // Made beside and renamed, so that no half of a library is left by a full disk.
    let beside = tempfile::Builder::new().prefix(".wirelore-").tempdir_in(parent).map_err(failed)?;
    let made = beside.path().join("library");
    let count = fill(&made, demo).map_err(failed)?;
    fs::rename(&made, dir).map_err(failed)?;
    let dir = dir.display();
    let (what, next) = if demo {
        ("the demo library, to practise on", "gaps")
    } else {
        ("generic devices, cables, terms and rules", "new card panel ID")
    };
    Ok(Report::done(format!("Wrote {count} files into {dir}: {what}\nNext: wirelore --library {dir} {next}\n")))
}

/// Writes the files that any library starts with, or all of the demo library; gives back how many.
fn fill(made: &Path, demo: bool) -> io::Result<usize> {
    let files = Files::embedded();
    let Checked { value: library, .. } = check::library(&files);
    let is_generic = |path: &str| {
        let id = path.strip_prefix("devices/").and_then(|name| name.strip_suffix(".yaml"));
        id.and_then(|id| library.devices.get(id)).is_some_and(|device| device.maker.is_none())
    };
    for folder in ["panels", "boards", "devices", "cables", "supplies", "rules", "surveys", "notes"] {
        fs::create_dir_all(made.join(folder))?;
    }
    schema::write_all(made)?;
    let everywhere = |path: &str| path == "terms.yaml" || path.starts_with("cables/") || path.starts_with("rules/");
    let texts = files.files.iter().filter_map(|(path, bytes)| Some((path, bytes.as_ref().ok()?.clone())));
    let pictures = files.pictures.keys().filter_map(|path| Some((path, files.picture(path)?.ok()?.bytes)));
    let wanted = texts.chain(pictures).filter(|(path, _)| demo || everywhere(path) || is_generic(path));
    let mut count = 0;
    for (path, bytes) in wanted {
        let path = made.join(path);
        fs::create_dir_all(path.parent().unwrap_or(made))?;
        fs::write(path, bytes)?;
        count += 1;
    }
    Ok(count)
}

/// Refuses a library that is not there.
pub(super) fn is_library(root: &Path) -> Result<(), Report> {
    let missing = |error| Report::machine(format!("error: can't open the library {}: {error}", root.display()));
    fs::read_dir(root).map(|_| ()).map_err(missing)
}

/// Writes the starting file of a kind into a folder of the library, unless one is there; without a library, into the
/// folder one is in, where no schema is at hand.
fn start(kind: &str, id: &str, library: Option<&Path>, folder: &str) -> Ended {
    new_id(id)?;
    let Some(text) = check::starter(kind, id) else {
        return Err(Report::wrong_usage(format!("error: there is no starting file of kind {kind}")));
    };
    write_new(kind, id, library, folder, &text)
}

/// Writes a new file, as [`new_file`] does, and says what comes next.
pub(super) fn write_new(kind: &str, id: &str, library: Option<&Path>, folder: &str, text: &str) -> Ended {
    let path = new_file(kind, id, library, folder, text)?;
    let path = path.display();
    Ok(Report::done(format!("Wrote {path}\nNext: fill it in, then run `wirelore check {path}`\n")))
}

/// Writes the file of a new id into a folder of the library, unless one is there, with the line that tells editors of its
/// schema; gives back its path.
///
/// # Errors
/// When one is there, or it can't be written.
pub(super) fn new_file(
    kind: &str,
    id: &str,
    library: Option<&Path>,
    folder: &str,
    text: &str,
) -> Result<PathBuf, Report> {
    let text = library.map(|_| schema::modeline(kind)).unwrap_or_default() + text;
    let folder = library.map(|root| root.join(folder)).unwrap_or_default();
    let path = folder.join(format!("{id}.yaml"));
    let failed = |error: io::Error| match error.kind() {
        ErrorKind::AlreadyExists => {
            Report::wrong_usage(format!("error: {} is there already; nothing was changed", path.display()))
        }
        _ => Report::machine(format!("error: can't write {}: {error}", path.display())),
    };
    if let Some(root) = library {
        lies_within(root, &folder).and_then(|()| fs::create_dir_all(&folder)).map_err(failed)?;
        schema::write(root, kind).map_err(failed)?;
    }
    create(&path, text.as_bytes()).map_err(failed)?;
    Ok(path)
}
