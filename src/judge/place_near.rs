//! `place-near`: a new item's place is no cable's, but nearly one. Places match exactly, so a slip of the pen would
//! leave the item without a cable.

use super::case::Case;
use super::types::Finding;

const CODE: &str = "place-near";
/// So many letters may differ.
const LETTERS: usize = 2;

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let places: Vec<&str> = case.job.cables.iter().filter_map(|c| c.survey.to.as_deref()).collect();
    case.job
        .items
        .iter()
        .filter(|item| !item.keep())
        .filter_map(|item| {
            let place = item.fit.place.as_deref().filter(|p| !places.contains(p))?;
            let near = nearest(place, &places)?;
            let says = format!(
                "No cable goes to \"{place}\" ({}), but one goes to \"{near}\". Write the place the same in both.",
                item.name()
            );
            Some(Finding::warning(CODE, place, says))
        })
        .collect()
}

/// The first of the nearest places, if it is near: the same but for case, spaces and two letters.
fn nearest<'a>(place: &str, places: &[&'a str]) -> Option<&'a str> {
    let seen = folded(place);
    let near = places.iter().filter_map(|other| {
        let folded = folded(other);
        let apart = letters_apart(&seen, &folded);
        (apart <= LETTERS && apart < seen.len().min(folded.len())).then_some((apart, *other))
    });
    near.min_by_key(|(apart, _)| *apart).map(|(_, other)| other)
}

/// Lower case, without spaces.
fn folded(word: &str) -> Vec<char> {
    word.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect()
}

/// How many letters must be put in, taken out or changed to make one word of the other.
fn letters_apart(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        for (cell, y) in row.iter_mut().skip(1).zip(b) {
            let changed = diagonal + usize::from(x != y);
            diagonal = *cell;
            left = changed.min(left + 1).min(*cell + 1);
            *cell = left;
        }
        if let Some(first) = row.first_mut() {
            *first = i + 1;
        }
    }
    row.last().copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_spaces_and_two_letters_are_near() {
        let places = ["Front wall", "Hall", "Kitchen"];
        for near in ["front wall", "FrontWall", "Front  wal", "Fornt wall"] {
            assert_eq!(nearest(near, &places), Some("Front wall"), "{near}");
        }
        assert_eq!(nearest("Ktchn", &places), Some("Kitchen"));
        assert_eq!(nearest("Garage", &places), None);
        assert_eq!(nearest("A", &["B"]), None, "two other letters are no slip of the pen");
    }

    #[test]
    fn counts_letters() {
        let apart = |a: &str, b: &str| letters_apart(&folded(a), &folded(b));
        assert_eq!([apart("", "abc"), apart("abc", "abc"), apart("abd", "abc"), apart("bac", "abc")], [3, 0, 1, 2]);
    }
}
