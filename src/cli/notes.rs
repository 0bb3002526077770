//! `wirelore notes`: what jobs taught, newest first.

use super::find::json_text;
use super::open::open;
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::model::{How, Library, Note};
use crate::wording::agreement;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Lists the notes of a card, or of all cards; none at all is an exit code of its own.
pub(super) fn run(library: Option<PathBuf>, card: Option<&str>, as_json: bool) -> Ended {
    let opened = open(library)?;
    if let Some(card) = card.filter(|card| opened.library.card(card).is_none()) {
        return Err(no_such_card(&opened.library, card));
    }
    let notes = newest_first(&opened.library, card);
    let mut report = Report::done(if as_json { as_json_text(&notes) } else { as_text(&notes) });
    if notes.is_empty() {
        let place = card.map_or_else(|| "in the library".to_owned(), |card| format!("on {card}"));
        report.say(format!("There is no note {place}: `wirelore note CARD TEXT` writes one"), Outcome::Content);
    }
    opened.warn(&mut report);
    Ok(report)
}

/// The notes with their cards, newest first; those of one day by card, then by file.
fn newest_first<'l>(library: &'l Library, card: Option<&str>) -> Vec<(&'l str, &'l Note)> {
    let of_cards = library.notes.iter().filter(|(id, _)| card.is_none_or(|card| card == id.as_str()));
    let mut notes: Vec<(&str, &Note)> =
        of_cards.flat_map(|(id, notes)| notes.iter().map(move |note| (id.as_str(), note))).collect();
    notes.sort_by(|a, b| b.1.date.cmp(&a.1.date).then(a.0.cmp(b.0)).then(a.1.file.cmp(&b.1.file)));
    notes
}

fn as_text(notes: &[(&str, &Note)]) -> String {
    let texts: Vec<String> = notes.iter().map(|(card, note)| as_lines(card, note)).collect();
    texts.join("\n")
}

/// A note as a heading and its words below it.
fn as_lines(card: &str, note: &Note) -> String {
    let from = [
        note.by.as_ref().map(|by| format!("by {by}")),
        note.job.as_ref().map(|job| format!("job {job}")),
        Some(note.how.map_or("how it is known was not written", How::word).to_owned()),
        note.agrees.map(|agrees| agreement(agrees).to_owned()),
    ];
    let from = from.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let date = note.date.map_or_else(|| "no date".to_owned(), |date| date.to_string());
    let about = note.about.as_deref().unwrap_or("the whole card");
    let mut text = format!("{date}  {card}  {about}  ({from})\n");
    for words in note.words().lines() {
        let _ = writeln!(text, "    {words}");
    }
    text
}

fn as_json_text(notes: &[(&str, &Note)]) -> String {
    let rows: Vec<Value> = notes.iter().map(|(card, note)| as_json(card, note)).collect();
    json_text(&json!({ "notes": rows }))
}

fn as_json(card: &str, note: &Note) -> Value {
    json!({
        "card": card,
        "file": format!("notes/{card}/{}", note.file),
        "about": note.about,
        "date": note.date.map(|date| date.to_string()),
        "by": note.by,
        "job": note.job,
        "how": note.how.map(How::word),
        "agrees": note.agrees,
        "text": note.text,
        "pictures": note.pictures.iter().map(|picture| json!({ "file": picture.file, "alt": picture.alt })).collect::<Vec<_>>(),
    })
}
