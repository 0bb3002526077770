//! `wirelore show`: a card as a person reads it, cautions first.

mod board;
mod cable;
mod device;
mod panel;
mod unit;

use super::open::open;
use super::report::{Ended, Report};
use crate::model::{Card, Library, Note, SourceText};
use crate::wording::all_nearest;
use std::fmt::{Display, Write as _};
use std::path::PathBuf;

/// Shows the card of this id.
pub(super) fn run(library: Option<PathBuf>, id: &str) -> Ended {
    let opened = open(library)?;
    let Some(text) = text(&opened.library, id) else {
        let mut report = no_such_card(&opened.library, id);
        opened.warn(&mut report);
        return Err(report);
    };
    let mut report = Report::done(text);
    opened.warn(&mut report);
    Ok(report)
}

/// The card of this id as a person reads it, its name in the first line.
pub(super) fn text(library: &Library, id: &str) -> Option<String> {
    let card = library.card(id)?;
    let mut sections = match card {
        Card::Panel(panel) => panel::sections(panel),
        Card::Board(board) => board::sections(board),
        Card::Supply(supply) => unit::sections(&supply.unit, "Boxed power supply"),
        Card::Device(device) => device::sections(device),
        Card::Cable(cable) => cable::sections(cable),
    };
    sections.push(section("Notes of earlier jobs", &library.notes_of(id).iter().map(note).collect::<String>()));
    sections.push(section("Sources", &sources(card)));
    sections.retain(|section| !section.is_empty());
    Some(sections.join("\n"))
}

/// That there is no such card, with the nearest ids.
pub(super) fn no_such_card(library: &Library, id: &str) -> Report {
    let ids = ids(library);
    let mut near = all_nearest(id, ids.iter().copied());
    near.truncate(5);
    let hint = match near.as_slice() {
        [] if ids.is_empty() => "The library holds no cards.".to_string(),
        [] => format!("The cards: {}", ids.join(", ")),
        near => format!("Did you mean {}?", near.join(", or ")),
    };
    Report::content(format!("error: there is no card \"{id}\" in the library\n{hint}"))
}

fn ids(library: &Library) -> Vec<&str> {
    let panels = library.panels.keys().chain(library.boards.keys()).chain(library.supplies.keys());
    panels.chain(library.devices.keys()).chain(library.cables.keys()).map(String::as_str).collect()
}

/// A heading with its text below it; nothing without a text.
fn section(heading: &str, text: &str) -> String {
    if text.is_empty() { String::new() } else { format!("{heading}\n{text}") }
}

/// One fact in a line.
fn line(label: &str, value: &str) -> String {
    format!("  {label}: {value}\n")
}

/// A value, or that it is not known.
fn or_not_known(value: Option<impl Display>) -> String {
    value.map_or_else(|| "not known".to_string(), |value| value.to_string())
}

/// A value, or nothing.
fn or_blank(value: Option<impl Display>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

/// The first lines: what it is, the names it goes by, what to beware of.
fn head(name: &str, what: &str, also: &[String], markings: &[String], cautions: &[String]) -> String {
    let mut text = format!("{name} ({what})\n");
    for caution in cautions {
        let _ = writeln!(text, "  CAUTION: {caution}");
    }
    if !also.is_empty() {
        text.push_str(&line("Also", &also.join(", ")));
    }
    if !markings.is_empty() {
        text.push_str(&line("Printed on it", &markings.join(", ")));
    }
    text
}

fn note(note: &Note) -> String {
    let about = note.about.as_ref().map(|about| format!("about {about}"));
    let by = note.by.as_ref().map(|by| format!("by {by}"));
    let job = note.job.as_ref().map(|job| format!("job {job}"));
    let how = note.how.map_or("how it is known was not written", |how| how.word()).to_string();
    let date = note.date.map_or_else(|| "no date".to_string(), |date| date.to_string());
    let head: Vec<String> = [Some(date), about, by, job, Some(how)].into_iter().flatten().collect();
    let mut text = format!("  {}\n", head.join(", "));
    for words in note.words().lines() {
        let _ = writeln!(text, "    {words}");
    }
    text
}

fn sources(card: Card<'_>) -> String {
    let sources: &[SourceText] = match card {
        Card::Device(device) => &device.sources,
        _ => card.unit().map_or(&[], |unit| unit.sources.as_slice()),
    };
    let row = |source: &SourceText| {
        let title = source.title.clone();
        let date = source.date.map(|date| date.to_string());
        let words: Vec<String> = [title, date, Some(source.how.word().to_string())].into_iter().flatten().collect();
        line(&source.key, &words.join(", "))
    };
    sources.iter().map(row).collect()
}
