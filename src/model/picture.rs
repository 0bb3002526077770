//! A picture that a note shows.

use super::Note;
use std::ops::Range;

/// A picture in a note's text. Whether there is such a file is not asked here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotePicture {
    /// Its file's name, beside the note.
    pub file: String,
    /// What it shows, in words.
    pub alt: String,
    /// Where it stands in the note's text, in bytes.
    pub place: Range<usize>,
}

impl Note {
    /// The text with words in the place of its pictures: `[picture lid.png: Where LK2 sits]`.
    #[must_use]
    pub fn words(&self) -> String {
        self.with_pictures(|picture| format!("[picture {}: {}]", picture.file, picture.alt))
    }

    /// The text with what `shown` makes of each picture in its place.
    #[must_use]
    pub fn with_pictures(&self, mut shown: impl FnMut(&NotePicture) -> String) -> String {
        let mut text = String::with_capacity(self.text.len());
        let mut end = 0;
        for picture in &self.pictures {
            text.push_str(self.text.get(end..picture.place.start).unwrap_or_default());
            text.push_str(&shown(picture));
            end = picture.place.end;
        }
        text + self.text.get(end..).unwrap_or_default()
    }
}
