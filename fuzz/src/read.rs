//! A file of any kind, read and checked: whatever is in it, checking ends, and every fault lies within it.

use super::demo::{FILES, LIBRARY};
use crate::check::within::lies_within;
use wirelore::check;
use wirelore::diagnostics;
use wirelore::source::{Files, SourceFile};

/// Where a file can lie.
pub(crate) const PLACES: [&str; 9] = [
    "panels/x.yaml",
    "boards/x.yaml",
    "devices/x.yaml",
    "cables/x.yaml",
    "supplies/x.yaml",
    "rules/x.yaml",
    "terms.yaml",
    "notes/merrowby-mb6/2026-01-01-x.md",
    "surveys/x.yaml",
];
/// The card of the note.
const CARD: &str = "panels/merrowby-mb6.yaml";

/// Reads a file: the first byte says where it lies, the rest is what it holds.
pub fn read(bytes: &[u8]) {
    let Some((place, text)) = bytes.split_first() else { return };
    let place = PLACES[usize::from(*place) % PLACES.len()];
    let faults = if place.starts_with("surveys/") {
        let file = SourceFile { path: place.into(), bytes: Ok(text.to_vec()), in_library: true };
        let checked = check::survey(&LIBRARY, &file);
        assert_eq!(checked.value.is_some(), checked.faults.is_empty());
        checked.faults
    } else {
        let mut files = Files::default();
        files.files.insert(CARD.into(), FILES.files[CARD].clone());
        files.files.insert(place.into(), Ok(text.to_vec()));
        let checked = check::library(&files);
        assert_eq!(checked.faults, check::library(&files).faults);
        checked.faults
    };
    let text = String::from_utf8_lossy(text);
    let body = text.strip_prefix('\u{feff}').unwrap_or(&text);
    for fault in faults.iter().filter(|fault| fault.file == place).take(50) {
        lies_within(fault, body);
        assert!(!diagnostics::draw(fault, false).chars().any(|c| c != '\n' && c.is_control()));
    }
}
