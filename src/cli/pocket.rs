//! `wirelore pocket`: the library, and packs, in one page that needs nothing else.

use super::args::Pocket;
use super::check::counted;
use super::open::open;
use super::ordinary;
use super::pack::{templates, write};
use super::report::{Ended, Report};
use super::show::no_such_card;
use crate::model::Library;
use crate::pocket::{self, Pack};
use crate::render;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Writes the page and says what is in it.
pub(super) fn run(library: Option<PathBuf>, asked: &Pocket) -> Ended {
    let templates_read = templates::read(asked.templates.as_deref())?;
    let mut opened = open(library)?;
    keep(&mut opened.library, &asked.panels)?;
    let packs = asked.packs.as_deref().map_or_else(|| Ok(Vec::new()), packs)?;
    let made = pocket::pocket(&opened.library);
    let page = templates::made(asked.templates.as_deref(), || render::pocket(&made, &packs, &templates_read))
        .map_err(|wrong| Report::content(format!("error: {wrong}")))?;
    written(&asked.out, &page)?;
    let cards = counted(made.cards.len(), "card");
    let packs = if packs.is_empty() { String::new() } else { format!(" and {}", counted(packs.len(), "pack")) };
    let kilobytes = page.len().div_ceil(1000);
    let path = asked.out.display();
    let mut report =
        Report::done(format!("{path}: {cards}{packs}, {kilobytes} kB. Put it on the phone and open it there.\n"));
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
        Pack::read(&bytes, text).map_err(|why| {
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

/// Writes the page whole.
fn written(out: &Path, page: &[u8]) -> Result<(), Report> {
    let failed = |error: &std::io::Error| Report::machine(format!("error: can't write {}: {error}", out.display()));
    let folder = out.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = out.file_name().and_then(|name| name.to_str()).filter(|_| !out.is_dir());
    let name = name.ok_or_else(|| Report::wrong_usage(format!("error: {} names no file to write", out.display())))?;
    write::lone(folder, name, page).map_err(|error| failed(&error))
}
