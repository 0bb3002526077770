//! A sheet has a blank for every key of the survey's format.

use super::{panels, view};
use crate::pages::demo;
use std::collections::BTreeSet;
use wirelore::check::survey_keys;
use wirelore::pack::sheet::{Cell, Part, SheetView};

/// Every part with its stage's words.
fn parts(view: &SheetView) -> Vec<(String, &Part)> {
    let mut out = Vec::new();
    for stage in &view.stages {
        let how = stage.how.join(" ");
        out.extend(stage.parts.iter().map(|part| (how.clone(), part)));
    }
    out
}

fn cells(part: &Part) -> impl Iterator<Item = &Cell> {
    part.rows.iter().flatten()
}

/// The words that stand with the blanks of a key.
fn words_by(view: &SheetView, key: &str) -> String {
    let with = parts(view).into_iter().filter(|(_, part)| cells(part).any(|cell| cell.keys.contains(&key)));
    let words = with.map(|(how, part)| {
        let printed: Vec<&str> = cells(part).map(|cell| cell.text.as_str()).collect();
        format!("{how} {} {} {}", part.how.join(" "), part.columns.join(" "), printed.join(" "))
    });
    words.collect::<Vec<_>>().join(" ")
}

#[test]
fn every_key_has_a_blank_and_every_blank_is_for_a_key() {
    let (library, _) = demo::library();
    let keys = survey_keys();
    assert!(keys.len() > 50, "{}", keys.len());
    let known: BTreeSet<&str> = keys.iter().map(|key| key.path.as_str()).collect();
    for panel in panels(&library) {
        let view = view(&library, panel);
        let all = parts(&view);
        let blanks: BTreeSet<&str> =
            all.iter().flat_map(|(_, part)| cells(part)).flat_map(|cell| cell.keys.clone()).collect();
        assert_eq!(known.difference(&blanks).collect::<Vec<_>>(), Vec::<&&str>::new(), "keys without a blank");
        assert_eq!(blanks.difference(&known).collect::<Vec<_>>(), Vec::<&&str>::new(), "blanks without a key");
    }
}

#[test]
fn the_words_that_a_key_takes_stand_by_its_blank() {
    let (library, _) = demo::library();
    let view = view(&library, None);
    for key in survey_keys() {
        let words = words_by(&view, &key.path);
        let none = key.none.then_some("none");
        for word in key.words.iter().copied().chain(none) {
            assert!(words.contains(word), "{}: {word}", key.path);
        }
    }
}

#[test]
fn a_blank_has_room_or_boxes_and_rows_are_as_long_as_their_heads() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let view = view(&library, panel);
        for (_, part) in parts(&view) {
            assert!(part.rows.iter().all(|row| row.len() == part.columns.len()), "{:?}", part.columns);
            for cell in cells(part).filter(|cell| !cell.keys.is_empty()) {
                let filled =
                    ["cables.cable", "board"].iter().any(|key| cell.keys.contains(key)) && !cell.text.is_empty();
                assert!(cell.dots.len() >= 6 || cell.text.contains('☐') || filled, "{cell:?}");
            }
        }
    }
}

/// Nothing is asked twice: outside tables whose rows repeat, a key has one part. What a doubtful siren fact settles, and
/// what a served item and a new one have in common, stands where it is found out.
#[test]
fn nothing_is_asked_twice() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let view = view(&library, panel);
        for key in survey_keys() {
            let asked: BTreeSet<&str> = view
                .stages
                .iter()
                .filter(|stage| stage.parts.iter().flat_map(cells).any(|cell| cell.keys.contains(&key.path.as_str())))
                .map(|stage| stage.title)
                .collect();
            let twice = ["settled.", "fit."].iter().any(|start| key.path.starts_with(start));
            assert!(asked.len() == 1 || twice, "{} in {asked:?}", key.path);
        }
    }
}
