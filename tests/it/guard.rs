//! The privacy guard on texts that were labelled before it was written.

use std::fs;
use std::path::Path;
use wirelore::guard::{Guard, Leak, Site};

fn frozen(name: &str) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/guard").join(name);
    let text = fs::read_to_string(path).expect("the frozen texts");
    text.lines().filter(|line| !line.starts_with('#')).map(str::to_owned).collect()
}

/// The sites of Ferrow Bay that the texts name.
fn guard() -> Guard {
    let site = |survey: &str, name: &str, address: &str| Site {
        survey: survey.into(),
        name: Some(name.into()),
        address: Some(format!("{address}, Ferrow Bay")),
    };
    Guard::new(&[
        site("ferry-office", "Ferry Office", "Pier Head"),
        site("net-loft", "The Net Loft", "Capstan Yard"),
        site("lighthouse-store", "Lighthouse Store", "Skerry Road"),
        site("kelp-cottage", "Kelp Cottage", "11 Strand Lane"),
        site("customs-house", "Old Customs House", "Tide Square"),
        site("lantern-bakery", "Lantern Bakery", "4 Quay Street"),
        site("pilot-cottage", "Pilot Cottage", "Lookout Steps"),
        site("harbour-chandlery", "Harbour Chandlery", "2 Slipway"),
        site("gannet-arcade", "Gannet Arcade", "North Parade"),
        site("ropewalk-store", "Ropewalk Store", "The Ropewalk"),
        site("saltmarsh-school", "Saltmarsh School", "Causeway Road"),
    ])
}

fn words<'t>(text: &'t str, leaks: &[Leak]) -> Vec<&'t str> {
    leaks.iter().map(|leak| &text[leak.place.clone()]).collect()
}

/// The first words between « and ».
fn marked(text: &str) -> &str {
    text.split_once('«').and_then(|(_, rest)| rest.split_once('»')).expect("marked words").0
}

#[test]
fn none_of_a_hundred_texts_that_must_be_refused_passes() {
    let guard = guard();
    let texts = frozen("refused.tsv");
    assert_eq!(texts.len(), 100);
    let mut wrong = Vec::new();
    for line in &texts {
        let (_, labelled) = line.split_once('\t').expect("a kind and a text");
        let text = labelled.replace(['«', '»'], "");
        let leaks = guard.leaks(&text);
        let named = words(&text, &leaks);
        let meant = marked(labelled);
        if !named.iter().any(|words| words.contains(meant) || meant.contains(words)) {
            wrong.push(format!("{labelled}: {named:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn at_most_two_of_a_hundred_ordinary_sentences_are_refused() {
    let guard = guard();
    let texts = frozen("passed.txt");
    assert_eq!(texts.len(), 100);
    let refused: Vec<String> = texts
        .iter()
        .filter_map(|text| {
            let leaks = guard.leaks(text);
            (!leaks.is_empty()).then(|| format!("{text}: {leaks:?}"))
        })
        .collect();
    assert!(refused.len() <= 2, "{}", refused.join("\n"));
}
