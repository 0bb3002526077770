//! One note.

use super::keys::NOTE;
use super::sheet::Sheet;
use super::{Checked, build, shape};
use crate::model::{Card, Note};
use crate::source;

/// Reads and checks a note. `card` is the card it is on, where that is faultless; `file` is how the user names the
/// file, `name` its name in its folder. The value is `None` when it has a fault.
#[must_use]
pub fn note(card: Option<Card<'_>>, file: &str, name: &str, text: &str) -> Checked<Option<Note>> {
    let header = match source::split(file, text) {
        Ok(header) => header,
        Err(fault) => return Checked { value: None, faults: vec![*fault] },
    };
    let mut sheet = Sheet::new(file, text);
    shape::block(&mut sheet, &header.header, &NOTE);
    let note = build::note::note(&mut sheet, name, &header, card);
    Checked { value: Some(note).filter(|_| sheet.faults.is_empty()), faults: sheet.faults }
}
