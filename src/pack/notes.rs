//! What earlier jobs left on a card.

use super::pictures::PictureView;
use crate::model::{How, Job, Note};
use serde::Serialize;

/// A note as printed in full.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NoteView {
    /// The mark it is about; `the whole unit`.
    pub about: String,
    /// When, by whom, on which job, how known.
    pub from: String,
    /// Its text, as written.
    pub text: String,
    /// The pictures in its text, in order.
    pub pictures: Vec<PictureView>,
}

impl NoteView {
    /// The notes of a card in full, oldest first.
    pub(super) fn of_card(job: &Job, card: &str) -> Vec<Self> {
        job.library.notes_of(card).iter().map(|note| Self::new(card, note)).collect()
    }

    /// A note of a card in full.
    #[must_use]
    pub fn new(card: &str, note: &Note) -> Self {
        let about = note.about.clone().unwrap_or_else(|| "the whole unit".into());
        let pictures = note.pictures.iter().map(|picture| PictureView::new(card, picture)).collect();
        Self { about, from: from(note), text: note.text.clone(), pictures }
    }
}

/// The notes about a mark, each as one line with who says so.
#[must_use]
pub fn on_mark(job: &Job, card: &str, mark: &str) -> Vec<String> {
    let notes = job.library.notes_of(card).iter().filter(|n| n.about.as_deref() == Some(mark));
    notes.map(|n| format!("{} ({})", one_line(&n.words()), from(n))).collect()
}

/// When, by whom, on which job, how known.
fn from(note: &Note) -> String {
    let parts = [
        note.date.map(|d| d.to_string()),
        note.by.clone(),
        note.job.as_ref().map(|job| format!("job {job}")),
        Some(note.how.map_or("how not said", How::word).to_string()),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Text with its line ends turned into spaces. A table makes no sense in a line: where one is, it is said.
fn one_line(text: &str) -> String {
    let is_row = |line: &str| line.trim_start().starts_with('|');
    let mut words: Vec<&str> = Vec::new();
    let mut in_table = false;
    for line in text.lines() {
        if is_row(line) && !in_table {
            words.push("[table: see the notes of earlier jobs]");
        }
        in_table = is_row(line);
        words.extend(line.split_whitespace().filter(|_| !in_table));
    }
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::one_line;

    #[test]
    fn a_note_in_a_line_says_that_there_is_a_table() {
        assert_eq!(one_line("a\n b\n\n| c |\n|---|\n| d |\n\ne"), "a b [table: see the notes of earlier jobs] e");
    }
}
