//! `wirelore pocket`: the library, and packs, in one page that needs nothing else.

use super::args::Pocket;
use super::check::counted;
use super::open::{Opened, open};
use super::ordinary;
use super::pack::{templates, write};
use super::report::{Ended, Report};
use super::show::no_such_card;
use crate::model::Library;
use crate::pack::{PictureFile, pictures};
use crate::pocket::{self, Pack};
use crate::render::{self, DRAWING_TYPE, DRAWINGS};
use crate::source::{PICTURE_BYTES, PictureKind};
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Writes the page and says what is in it.
pub(super) fn run(library: Option<PathBuf>, asked: &Pocket) -> Ended {
    let templates_read = templates::read(asked.templates.as_deref())?;
    let mut opened = open(library)?;
    keep(&mut opened.library, &asked.panels)?;
    let packs = asked.packs.as_deref().map_or_else(|| Ok(Vec::new()), packs)?;
    let made = pocket::pocket(&opened.library, |card, name| picture(&opened, card, name));
    let page = templates::made(asked.templates.as_deref(), || render::pocket(&made, &packs, &templates_read))
        .map_err(|wrong| Report::content(format!("error: {wrong}")))?;
    written(&asked.out, &page)?;
    let pictures = made.pictures.len() + packs.iter().map(|pack| pack.pictures.len()).sum::<usize>();
    let counts = [(made.cards.len(), "card"), (packs.len(), "pack"), (pictures, "picture")];
    let counts: Vec<String> =
        counts.into_iter().filter(|(count, _)| *count > 0).map(|(count, word)| counted(count, word)).collect();
    let (counts, kilobytes) = (counts.join(", "), page.len().div_ceil(1000));
    let path = asked.out.display();
    let mut report =
        Report::done(format!("{path}: {counts}; {kilobytes} kB. Put it on the phone and open it there.\n"));
    opened.warn(&mut report);
    Ok(report)
}

/// Leaves only these panels in a library, where any are named.
fn keep(library: &mut Library, panels: &[String]) -> Result<(), Report> {
    let wanted: Vec<&str> = panels.iter().map(|id| id.trim()).filter(|id| !id.is_empty()).collect();
    if let Some(id) = wanted.iter().find(|id| !library.panels.contains_key(**id)) {
        return Err(no_such_card(library, id));
    }
    if !wanted.is_empty() {
        library.panels.retain(|id, _| wanted.contains(&id.as_str()));
    }
    Ok(())
}

/// A picture of a card's notes, where it can be shown.
fn picture(opened: &Opened, card: &str, name: &str) -> Option<PictureFile> {
    let picture = opened.files.picture(&format!("notes/{card}/{name}"))?.ok()?;
    Some(PictureFile { media_type: picture.kind.media_type(), bytes: picture.bytes })
}

/// The packs of a folder, in the order of its names.
fn packs(folder: &Path) -> Result<Vec<Pack>, Report> {
    let failed =
        |path: &Path, error: &std::io::Error| Report::machine(format!("error: can't read {}: {error}", path.display()));
    let entries = fs::read_dir(folder).map_err(|error| failed(folder, &error))?;
    let mut folders: Vec<PathBuf> = Vec::new();
    for entry in entries {
        folders.push(entry.map_err(|error| failed(folder, &error))?.path());
    }
    folders.retain(|path| path.join("pack.json").is_file());
    folders.sort();
    let one = |path: &PathBuf| {
        let (json, markdown) = (path.join("pack.json"), path.join("pack.md"));
        let bytes = ordinary::whole(&json).map_err(|error| failed(&json, &error))?;
        let text = ordinary::whole(&markdown).map_err(|error| failed(&markdown, &error))?;
        let text = String::from_utf8(text).map_err(|_| failed(&markdown, &io::ErrorKind::InvalidData.into()))?;
        let pictures = shown_in(&text, path);
        Pack::read(&bytes, text, pictures).map_err(|why| {
            Report::content(format!("error: {}: {why}\nMake it anew with `wirelore pack`", json.display()))
        })
    };
    let packs = folders.iter().map(one).collect::<Result<Vec<_>, _>>()?;
    if packs.is_empty() {
        let message =
            format!("error: there is no pack in {}\nMake some: wirelore pack SURVEY -o DIR", folder.display());
        return Err(Report::content(message));
    }
    Ok(packs)
}

/// The drawings and pictures beside a pack that its Markdown shows, by their addresses. What is not there stays words.
fn shown_in(markdown: &str, folder: &Path) -> BTreeMap<String, PictureFile> {
    let addresses = markdown.split("](").skip(1).filter_map(|rest| Some(rest.split_once(')')?.0));
    addresses.filter_map(|address| Some((address.to_string(), beside(address, folder)?))).collect()
}

/// A drawing, which is shown as an image and so can run nothing, or a picture of a note.
fn beside(address: &str, folder: &Path) -> Option<PictureFile> {
    let (within, name) = address.split_once('/')?;
    let is_ours =
        matches!(within, DRAWINGS | pictures::FOLDER) && !name.contains(['/', '\\']) && !name.starts_with('.');
    let path = folder.join(within).join(name);
    let bytes = is_ours.then(|| ordinary::first(&path, PICTURE_BYTES + 1).ok())??;
    let kind = PictureKind::of_content(&bytes).map(PictureKind::media_type);
    let media_type = kind.or_else(|| (within == DRAWINGS).then_some(DRAWING_TYPE))?;
    (bytes.len() as u64 <= PICTURE_BYTES).then_some(PictureFile { media_type, bytes })
}

/// Writes the page whole.
fn written(out: &Path, page: &[u8]) -> Result<(), Report> {
    let failed = |error: &std::io::Error| Report::machine(format!("error: can't write {}: {error}", out.display()));
    let folder = out.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = out.file_name().and_then(|name| name.to_str()).filter(|_| !out.is_dir());
    let name = name.ok_or_else(|| Report::wrong_usage(format!("error: {} names no file to write", out.display())))?;
    write::lone(folder, name, page).map_err(|error| failed(&error))
}
