//! Cards that no job has left a note on, and notes that have grown old.

use super::{Gap, Kind, View};
use crate::model::Note;
use jiff::ToSpan;
use jiff::civil::Date;

pub(super) fn find(view: &View<'_>) -> Vec<Gap> {
    let none = view.units().filter(|unit| view.library.notes_of(&unit.id).is_empty());
    let mut gaps: Vec<Gap> = none.map(|unit| view.gap(Kind::NoNote, &unit.id, "What its jobs have taught")).collect();
    let before = view.today.and_then(|today| today.checked_sub(2.years()).ok());
    for (card, notes) in &view.library.notes {
        let old = notes.iter().filter_map(|note| Some((note, old(note, before?)?)));
        gaps.extend(
            old.map(|(note, date)| Gap {
                about: note.about.clone(),
                ..view.gap(Kind::OldNote, card, said(note, date))
            }),
        );
    }
    gaps
}

/// The day of a note that was written before another day.
fn old(note: &Note, before: Date) -> Option<Date> {
    note.date.filter(|date| *date < before)
}

/// Whether the note still holds is what is not known.
fn said(note: &Note, date: Date) -> String {
    let first = note.text.lines().next().unwrap_or_default();
    let short: String = first.chars().take(80).collect();
    let dots = if short.len() < first.len() { " …" } else { "" };
    format!("Whether the note of {date} still holds: {short}{dots}")
}
