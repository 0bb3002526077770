//! The privacy guard on texts that were labelled before it was written.

use proptest::prelude::*;
use std::fs;
use std::path::Path;
use wirelore::check;
use wirelore::guard::{Guard, Leak, Site};
use wirelore::source::Files;

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

#[test]
fn the_demo_library_and_the_starting_files_hold_nothing_private() {
    let files = Files::embedded();
    let guard = Guard::new(&check::sites(&files.surveys()));
    assert_eq!(check::privacy(&files, &guard), []);
    for kind in check::KINDS {
        let text = check::starter(kind, "quay-house").expect("a kind");
        let found = check::private(&guard, kind, &text);
        assert!(kind == "survey" || found.is_empty(), "{found:?}");
    }
}

#[test]
fn what_is_refused_is_named_with_its_place_and_what_to_write() {
    let text = "---\ndate: 2026-11-03\n---\nAUX is fine.\nAt Lantern Bakery, ring 07700 900123.\n";
    let faults = check::private(&guard(), "notes/x/y.md", text);
    let told: Vec<(usize, usize, &str)> = faults.iter().map(|f| (f.line, f.column, f.message.as_str())).collect();
    assert_eq!(
        told,
        [
            (5, 4, "`Lantern Bakery` is the name or address of a surveyed site: it must not be in a shared library"),
            (5, 25, "`07700 900123` is a telephone number: it must not be in a shared library"),
        ]
    );
    assert!(faults.iter().all(|fault| !fault.help.is_empty()));
}

#[test]
fn a_name_that_is_an_ordinary_word_is_no_name() {
    let site = |name: &str| Site { survey: "s".into(), name: Some(name.into()), address: None };
    let guard = Guard::new(&[site("The Shop"), site("Panel"), site("Rosemount")]);
    assert_eq!(guard.leaks("The shop's panel has no LK2."), []);
    assert_eq!(words("Seen at rosemount.", &guard.leaks("Seen at rosemount.")), ["rosemount"]);
}

#[test]
fn an_id_is_found_whatever_signs_it_has_but_not_within_a_longer_one() {
    let site = |id: &str| Site { survey: id.into(), ..Site::default() };
    let guard = Guard::new(&[site("net-loft"), site("net-loft-2"), site("_Odd.id-7"), site("st-annes-7")]);
    let found = |text| words(text, &guard.leaks(text)).join(" ");
    assert_eq!(found("as at Net-Loft, and net-loft-2."), "Net-Loft net-loft-2");
    assert_eq!(found("old-net-loft, net-loft-3, net-lofts, net loft"), "");
    assert_eq!(found("see _odd.id-7; odd.id-7; ST-ANNES-7"), "_odd.id-7 ST-ANNES-7");
}

#[test]
fn a_survey_with_faults_names_its_site_all_the_same() {
    let mut files = Files::embedded();
    let survey = b"survey: rose-house\nnonsense: 1\nsite: { name: Rosemount, address: \"3 Elder Way, Ferrow Bay\" }\n";
    files.files.insert("surveys/rose-house.yaml".into(), Ok(survey.to_vec()));
    files.files.insert("notes/merrowby-mb6/2026-01-01-rosemount.md".into(), Ok(b"Elder Way, rose-house".to_vec()));
    let faults = check::privacy(&files, &Guard::new(&check::sites(&files.surveys())));
    let told: Vec<&str> = faults.iter().filter_map(|f| f.message.split('`').nth(1)).collect();
    assert_eq!(told, ["Elder Way", "rosemount", "rose-house"]);
}

proptest! {
    #[test]
    fn any_text_is_looked_through(text in "(\\PC|[ 0-9+().@-]|code |at |\n){0,80}") {
        let mut end = 0;
        for leak in guard().leaks(&text) {
            prop_assert!(leak.place.start >= end && text.get(leak.place.clone()).is_some_and(|words| !words.is_empty()));
            end = leak.place.end;
        }
    }
}
