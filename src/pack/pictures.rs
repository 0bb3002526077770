//! The pictures of earlier jobs' notes, as files of the pack.

use super::View;
use super::notes::NoteView;
use crate::model::NotePicture;
use serde::Serialize;
use std::collections::BTreeMap;

/// The folder of a pack in which they lie.
pub const FOLDER: &str = "pictures";

/// How the names of the files begin that are ours in that folder. What else lies in it is the user's.
pub const OURS: &str = "note.";

/// A picture's file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureFile {
    /// What it is: `image/png`.
    pub media_type: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// A picture as a note shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PictureView {
    /// The card that the note is on.
    pub card: String,
    /// Its name beside the note.
    pub name: String,
    /// What it shows, in words.
    pub alt: String,
    /// Its file in the pack; `None`: it can't be shown.
    pub file: Option<String>,
    /// The first byte of the note's text that is the picture's.
    pub start: usize,
    /// The first byte after it.
    pub end: usize,
}

impl PictureView {
    /// A picture that has no file yet.
    pub(super) fn new(card: &str, picture: &NotePicture) -> Self {
        Self {
            card: card.to_owned(),
            name: picture.file.clone(),
            alt: picture.alt.clone(),
            file: None,
            start: picture.place.start,
            end: picture.place.end,
        }
    }
}

impl View {
    /// Puts the pictures of notes into the pack. `find` gives the file of a picture, by its card and its name; without one
    /// the pack says in words what the picture shows, and that it is not there.
    pub fn show_pictures(&mut self, find: impl FnMut(&str, &str) -> Option<PictureFile>) {
        place_pictures(self.panel.notes.iter_mut().chain(&mut self.board.notes), &mut self.pictures, find);
    }

    /// The notes that a pack prints in full.
    pub(super) fn notes(&self) -> impl Iterator<Item = &NoteView> {
        self.panel.notes.iter().chain(&self.board.notes)
    }
}

/// Gives the pictures of notes their files, each once; those that `find` does not have stay words.
pub fn place_pictures<'a>(
    notes: impl Iterator<Item = &'a mut NoteView>,
    files: &mut BTreeMap<String, PictureFile>,
    mut find: impl FnMut(&str, &str) -> Option<PictureFile>,
) {
    for picture in notes.flat_map(|note| &mut note.pictures) {
        // Ids have no dots, so two cards' pictures never have one name.
        let file = format!("{FOLDER}/{OURS}{}.{}", picture.card, picture.name);
        if !files.contains_key(&file) {
            let Some(found) = find(&picture.card, &picture.name) else { continue };
            files.insert(file.clone(), found);
        }
        picture.file = Some(file);
    }
}
