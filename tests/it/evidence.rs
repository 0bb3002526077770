//! What sites measured, beside what the card says: in searches, cards and packs.

use std::fmt::Write as _;
use wirelore::check;
use wirelore::model::{Evidence, Library, Standing};
use wirelore::search::{Index, Question};
use wirelore::source::Files;

/// The demo library with these notes about a mark of the Merrowby MB6: job and whether it agrees.
fn library(mark: &str, notes: &[(Option<&str>, bool)]) -> Library {
    let mut files = Files::embedded();
    for (at, (job, agrees)) in notes.iter().enumerate() {
        let mut text = format!("---\nabout: \"{mark}\"\ndate: 2026-11-{:02}\n", at + 1);
        if let Some(job) = job {
            let _ = writeln!(text, "job: \"{job}\"");
        }
        let _ = write!(text, "how: measured\nagrees: {agrees}\n---\nMeasured.\n");
        files.files.insert(format!("notes/merrowby-mb6/2026-11-{:02}-m.md", at + 1), Ok(text.into_bytes()));
    }
    let checked = check::library(&files);
    assert_eq!(checked.faults, []);
    checked.value
}

fn known(library: &Library, mark: &str) -> String {
    let question = Question { words: mark.into(), card: Some("merrowby-mb6".into()), kinds: Vec::new(), limit: 1 };
    let hits = Index::build(library).expect("an index").find(&question).expect("hits");
    hits.first().and_then(|hit| hit.known.clone()).expect("how it is known")
}

#[test]
fn sites_that_agree_are_counted_and_confirm_a_fact() {
    let library = library("S0", &[(None, true), (None, true), (Some("1043"), true), (Some("1043"), true)]);
    let terminal = library.panels["merrowby-mb6"].unit.terminal("S0").expect("a terminal");
    assert_eq!(terminal.evidence, Evidence { agree: 3, disagree: 0 });
    assert_eq!(Standing::at_sites(&terminal.cite, terminal.evidence), Standing::Confirmed);
    let known = known(&library, "S0");
    assert!(known.starts_with("confirmed (") && known.ends_with("; measured at 3 sites)"), "{known}");
}

#[test]
fn sites_that_disagree_put_a_fact_in_doubt() {
    let library = library("S+", &[(None, false), (Some("1"), false), (None, true)]);
    let known = known(&library, "S+");
    assert!(known.starts_with("confirm on site ("), "{known}");
    assert!(known.ends_with("; measured at 1 site, 2 sites disagree, see notes)"), "{known}");
}

#[test]
fn notes_that_do_not_say_count_for_nothing() {
    let checked = check::library(&Files::embedded());
    let units = checked.value.panels.values().map(|panel| &panel.unit);
    let units = units.chain(checked.value.boards.values().map(|board| &board.unit));
    assert!(units.flat_map(|unit| &unit.terminals).all(|t| t.evidence == Evidence::default()));
}

#[test]
fn agrees_must_be_measured_and_about_a_mark() {
    let mut files = Files::embedded();
    let note = b"---\ndate: 2026-11-01\nhow: label\nagrees: true\n---\nx\n".to_vec();
    files.files.insert("notes/merrowby-mb6/2026-11-01-m.md".into(), Ok(note));
    let told: Vec<String> =
        check::library(&files).faults.into_iter().map(|f| format!("{}: {}", f.line, f.message)).collect();
    assert_eq!(told, ["4: only what was measured agrees or disagrees", "4: `agrees` does not say about what"]);
}
