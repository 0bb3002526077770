//! The survey file beside a sheet: it takes the place of one in which nothing was typed, never of another.

use super::super::ordinary;
use crate::check::{Known, blank_survey};
use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::Path;

/// What it is called.
pub(super) const NAME: &str = "survey.yaml";

/// The most cables that a sheet has blanks for.
const MOST_CABLES: usize = 200;

/// Adds the survey file to a sheet's files, unless one is there in which something was typed; gives back its name when
/// it was kept for that.
pub(super) fn add(
    files: &mut BTreeMap<String, Vec<u8>>,
    place: &Path,
    known: &Known<'_>,
    id: &str,
) -> Option<&'static str> {
    let there = match ordinary::whole(&place.join(NAME)) {
        Ok(bytes) => Some(bytes),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        // What can't be read may hold someone's evening.
        Err(_) => return Some(NAME),
    };
    if there.is_some_and(|bytes| !is_blank(&bytes, known, id)) {
        return Some(NAME);
    }
    files.insert(NAME.to_string(), blank_survey(known, id).into_bytes());
    None
}

/// Whether this is what some `wirelore sheet` of this panel wrote, with any board and any number of cables.
fn is_blank(bytes: &[u8], known: &Known<'_>, id: &str) -> bool {
    let boards = known.library.boards.keys().map(|board| Some(board.as_str()));
    boards.chain([None]).any(|board| {
        let counts = 1..=MOST_CABLES;
        let mut lengths = counts.map(|cables| blank_survey(&Known { board, cables, ..*known }, id));
        lengths.any(|text| text.as_bytes() == bytes)
    })
}

/// The names of the files, as a person says them.
pub(super) fn listed(files: &BTreeMap<String, Vec<u8>>) -> String {
    crate::wording::listed(&files.keys().collect::<Vec<_>>())
}
