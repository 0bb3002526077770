//! `wirelore set`: corrects a fact of a card in its file.

use super::args::Set;
use super::check::counted;
use super::find::json_text;
use super::note::needs_library;
use super::open::{Opened, open};
use super::place::CARD_FOLDERS;
use super::replace::hold;
use super::report::{Ended, Report};
use super::show::no_such_card;
use crate::check;
use crate::diagnostics::{Fault, draw};
use crate::edit::{self, Changed, Edited, Refusal, Wish};
use crate::source::{Files, text_of};
use crate::wording::listed;
use serde_json::json;
use std::path::PathBuf;

/// Corrects a fact, unless the card would have a fault that it does not have now.
pub(super) fn run(library: Option<PathBuf>, set: &Set) -> Ended {
    let opened = open(library)?;
    let Some(root) = &opened.root else { return Err(needs_library("a fact is corrected in")) };
    let (folder, path) = place(&opened, &set.card)?;
    let (on_disk, shown) = (root.join(&path), opened.files.shown(&path));
    let failed = |what: &str, error: &std::io::Error| Report::machine(format!("error: can't {what} {shown}: {error}"));
    let held = hold(&on_disk).map_err(|error| failed("read", &error))?;
    let bytes = held.bytes.clone();
    let text = text_of(&shown, &bytes).map_err(|fault| Report::content(draw(&fault, false)))?;
    let wish = Wish { folder, of: &set.of, values: &set.values, cite: set.cite.as_deref() };
    is_cited(&shown, text, &wish)?;
    let edited = edit::set(&shown, text, &wish).map_err(|refusal| refused(set, refusal))?;
    let changed = edit::changed(text, &edited.text);
    if changed.is_empty() {
        return Ok(told(set, &shown, &edited, &changed));
    }
    faultless(&opened.files, &path, &bytes, &edited)?;
    held.replace(&on_disk, edited.text.as_bytes()).map_err(|error| failed("write", &error))?;
    Ok(told(set, &shown, &edited, &changed))
}

/// The folder of a card and its path in the library, whether it has faults or not.
fn place(opened: &Opened, card: &str) -> Result<(&'static str, String), Report> {
    let cards = CARD_FOLDERS.iter().filter(|(folder, _)| *folder != "rules");
    let mut paths = cards.map(|(folder, _)| (*folder, format!("{folder}/{card}.yaml")));
    let there = paths.find(|(_, path)| opened.files.files.contains_key(path));
    there.ok_or_else(|| no_such_card(&opened.library, card))
}

/// Refuses a fact that does not say where it is from, where it should.
fn is_cited(shown: &str, text: &str, wish: &Wish<'_>) -> Result<(), Report> {
    let says = wish.cite.is_some() || wish.values.iter().any(|(key, _)| key == "cite");
    // What can't be found on the card is said by the change itself.
    if says || !edit::wants_cite(shown, text, wish.folder, wish.of).unwrap_or(false) {
        return Ok(());
    }
    Err(Report::wrong_usage(
        "error: a fact says where it is from\n\
         Add --cite with one of the card's sources and the place in it, for example --cite \"manual p.5\"",
    ))
}

fn refused(set: &Set, refusal: Refusal) -> Report {
    match refusal {
        Refusal::Fault(fault) => Report::content(draw(&fault, false)),
        Refusal::Wish(message, help) => Report::content(format!("error: {}: {message}\n{}", set.card, capital(&help))),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Refuses what would bring a fault into the library that is not in it now, with the faults.
fn faultless(files: &Files, path: &str, bytes: &[u8], edited: &Edited) -> Result<(), Report> {
    let mut now = files.clone();
    now.files.insert(path.to_owned(), Ok(bytes.to_vec()));
    let mut then = files.clone();
    then.files.insert(path.to_owned(), Ok(edited.text.clone().into_bytes()));
    let mut known = faults(&now);
    let mut new = faults(&then);
    new.retain(|fault| match known.iter().position(|old| old.file == fault.file && old.message == fault.message) {
        Some(at) => {
            known.remove(at);
            false
        }
        None => true,
    });
    // What is wrong with the card comes before what follows from it elsewhere.
    let shown = files.shown(path);
    if new.iter().any(|fault| fault.file == shown) {
        new.retain(|fault| fault.file == shown);
    }
    if new.is_empty() {
        return Ok(());
    }
    let drawn: String = new.iter().map(|fault| draw(fault, false) + "\n").collect();
    let count = counted(new.len(), "fault");
    Err(Report::content(format!("{drawn}Nothing was changed: this would bring in {count}")))
}

/// The faults of a library with its surveys.
fn faults(files: &Files) -> Vec<Fault> {
    let checked = check::library(files);
    let surveys = files.surveys();
    let of_surveys = surveys.iter().flat_map(|survey| check::survey(&checked.value, survey).faults);
    let mut faults = checked.faults;
    faults.extend(of_surveys);
    faults
}

/// What was changed, and what a reader may still have to look at.
fn told(set: &Set, shown: &str, edited: &Edited, changed: &[Changed]) -> Report {
    if set.json {
        let rows: Vec<_> =
            changed.iter().map(|place| json!({ "line": place.line, "old": place.old, "new": place.new })).collect();
        let value = json!({ "card": set.card, "place": edited.place, "file": shown, "changed": rows });
        return Report::done(json_text(&value));
    }
    if changed.is_empty() {
        return Report::done(format!("Nothing to change: {shown} says so already\n"));
    }
    Report::done(format!("{shown}, {}{}", edit::lines(changed), others(set, edited)))
}

/// What a cite of a whole row or block may say too much about.
fn others(set: &Set, edited: &Edited) -> String {
    let Some(cite) = &set.cite else { return String::new() };
    if edited.corrected && !edited.cites.is_empty() {
        return format!(
            "It is still cited by {} as well. If that does not say so: wirelore set {} {} cite={}\n",
            listed(&edited.cites),
            set.card,
            shell(&set.of),
            shell(cite),
        );
    }
    if edited.vouched.is_empty() {
        return String::new();
    }
    format!(
        "It had no cite of its own: `{cite}` now speaks for all that is said there, {} too\n",
        listed(&edited.vouched)
    )
}

/// A word as a shell takes it.
fn shell(word: &str) -> String {
    let is_plain = |c: char| c.is_ascii_alphanumeric() || "+-._".contains(c);
    if word.chars().all(is_plain) { word.to_owned() } else { format!("'{}'", word.replace('\'', "'\\''")) }
}
