//! The page of gaps beside the index of packs.

use super::run::{library, run};
use std::fs;

#[test]
fn the_page_holds_the_gaps_of_the_cards_that_the_packs_use() {
    let (dir, _) = library();
    let pack = |more: &[&str]| {
        let args = ["--library", "library", "pack", "lantern-bakery", "-o", "packs"];
        run(dir.path(), &[&args, more].concat()).ends(0);
        fs::read_to_string(dir.path().join("packs/gaps.html")).expect("a page")
    };
    let page = pack(&[]);
    let index = fs::read_to_string(dir.path().join("packs/index.html")).expect("an index");
    assert!(index.contains("<a href=\"gaps.html\">") && page.contains("<a href=\"index.html\">"));

    // The same command without its date and restricted to the cards of that survey, in the same order.
    let args = ["--library", "library", "gaps", "--json", "--today", "2026-11-28"];
    let listed: serde_json::Value = serde_json::from_str(&run(dir.path(), &args).ends(0).out).expect("JSON");
    let cards = ["merrowby-mb6", "fennick-f8", "external-sounder", "motion-detector", "door-contact", "piezo-sounder"];
    let due: Vec<(&str, &str)> = listed["gaps"]
        .as_array()
        .expect("a list")
        .iter()
        .filter(|gap| gap["kind"] != "unsure" && gap["kind"] != "old-note")
        .map(|gap| (gap["card"].as_str().expect("a card"), gap["says"].as_str().expect("words")))
        .filter(|(card, _)| cards.contains(card))
        .collect();
    let mut rest = page.as_str();
    for (card, says) in due {
        let row = format!("<tr><td>{card}</td>");
        let at = rest.find(&row).unwrap_or_else(|| panic!("{card}: {says}"));
        rest = &rest[at..];
    }
    for other in ["quillace-q4", "dunmarrow-d3", "tarnholt-t5"] {
        assert!(!page.contains(&format!("<td>{other}</td>")), "{other} is in no pack of this run");
    }
    assert!(page.contains("No date was given, so no note counts as old"));
    let dated = pack(&["--date", "2030-01-01"]);
    assert!(dated.contains("Notes older than two years") && dated.contains("Two years back from 2030-01-01"));
}

#[test]
fn a_card_that_lacks_nothing_is_named() {
    let (dir, _) = library();
    let ran = run(dir.path(), &["--library", "library", "gaps", "merrowby-mb6", "--today", "2026-11-28"]).ends(0);
    assert_eq!(ran.out, "No gaps: merrowby-mb6 says what a job needs\n");
}
