//! `wirelore pocket` and `wirelore readings`. What the page does in a browser is checked by `tests/browser/pocket.mjs`.

use super::run::{files, folder, library, run};
use std::fs;
use std::path::Path;

const SURVEY: &str = "library/surveys/lantern-bakery.yaml";

/// A file of readings with these rows.
fn readings(dir: &Path, date: &str, rows: &[&str]) {
    let rows: Vec<String> = rows.iter().map(|row| format!("      - {{ {row} }}")).collect();
    let rows = rows.join("\n");
    let text = format!("readings:\n  lantern-bakery:\n    date: {date}\n    by: KM\n    readings:\n{rows}\n");
    fs::write(dir.join("readings.yaml"), text).expect("written");
}

fn bring(dir: &Path) -> super::run::Ran {
    run(dir, &["--library", "library", "readings", "lantern-bakery", "readings.yaml"])
}

#[test]
fn the_page_is_the_same_bytes_every_time_and_holds_what_was_asked_for() {
    let dir = folder();
    let one = run(dir.path(), &["pocket", "-o", "one.html"]).ends(0);
    assert!(one.out.contains("one.html: ") && one.out.contains(" cards"), "{one:?}");
    run(dir.path(), &["pocket", "-o", "two.html"]).ends(0);
    let read = |name: &str| fs::read_to_string(dir.path().join(name)).expect("a page");
    assert_eq!(read("one.html"), read("two.html"));
    run(dir.path(), &["pocket", "--panels", "merrowby-mb6,tarnholt-t5", "-o", "few.html"]).ends(0);
    let few = read("few.html");
    let cards = few.split("id=\"cards\">").nth(1).and_then(|rest| rest.split("</script>").next()).expect("cards");
    let has = |id: &str| cards.lines().any(|line| line.starts_with(&format!("[\"{id}\",")));
    assert!(has("merrowby-mb6") && has("tarnholt-t5") && has("fennick-f8") && !has("tarnholt-t9"), "{cards}");
    let none = run(dir.path(), &["pocket", "--panels", "merrowby-mb66", "-o", "none.html"]).ends(1);
    assert!(none.err.contains("Did you mean merrowby-mb6"), "{none:?}");
    assert!(!dir.path().join("none.html").exists());
}

#[test]
fn packs_go_into_the_page_and_what_is_no_pack_is_told() {
    let dir = folder();
    run(dir.path(), &["pack", "lantern-bakery", "-o", "packs"]).ends(0);
    let ran = run(dir.path(), &["pocket", "--packs", "packs", "-o", "p.html"]).ends(0);
    assert!(ran.out.contains(" cards, 1 pack, ") && ran.out.contains(" pictures; "), "{ran:?}");
    let page = fs::read_to_string(dir.path().join("p.html")).expect("a page");
    assert!(page.contains("data-survey=\"lantern-bakery\""));
    fs::create_dir(dir.path().join("empty")).expect("a folder");
    let empty = run(dir.path(), &["pocket", "--packs", "empty", "-o", "e.html"]).ends(1);
    assert!(empty.err.contains("no pack in empty"), "{empty:?}");
    for broken in ["{}", "no JSON", "{\"survey\": \"x\", \"test_sheet\": [{}]}"] {
        fs::write(dir.path().join("packs/lantern-bakery/pack.json"), broken).expect("written");
        let ran = run(dir.path(), &["pocket", "--packs", "packs", "-o", "e.html"]).ends(1);
        assert!(ran.err.contains("pack.json") && ran.err.contains("wirelore pack"), "{ran:?}");
    }
}

#[test]
fn readings_go_into_as_left_and_nothing_else_changes() {
    let (dir, library) = library();
    let path = dir.path().join(SURVEY);
    let before = fs::read_to_string(&path).expect("the survey");
    let all = files(&library);
    let feed = "row: \"1.2\", what: \"feed of the board\", volts: 13.65 V";
    readings(dir.path(), "2026-11-12", &[feed, "row: \"3.2\", what: \"input 1, closed loop\", ohms: open, done: true"]);
    let ran = bring(dir.path()).ends(0);
    assert!(ran.out.contains("2 within the window, 0 outside"), "{ran:?}");
    let after = fs::read_to_string(&path).expect("the survey");
    let tail = after.strip_prefix(&before).expect("what was there is as it was");
    assert_eq!(
        tail,
        "\nas_left:\n  - date: 2026-11-12\n    by: KM\n    readings:\n      \
         - { row: \"1.2\", what: \"feed of the board\", volts: 13.65 V }\n      \
         - { row: \"3.2\", what: \"input 1, closed loop\", ohms: open, done: true }\n"
    );
    assert!(bring(dir.path()).ends(0).out.contains("Nothing to change"));
    assert_eq!(fs::read_to_string(&path).expect("the survey"), after);
    // A corrected reading where it stands, a new one behind the others, another day as a visit of its own.
    readings(
        dir.path(),
        "2026-11-12",
        &[&feed.replace("13.65", "9.7"), "row: \"1.3\", what: \"board supply AUX\", volts: 13.5 V"],
    );
    let ran = bring(dir.path()).ends(1);
    assert!(ran.out.contains("OUTSIDE  1.2 feed of the board") && ran.out.contains("1 without a window"), "{ran:?}");
    readings(dir.path(), "2026-12-01", &[feed]);
    bring(dir.path()).ends(0);
    let last = fs::read_to_string(&path).expect("the survey");
    assert!(
        last.starts_with(&before) && last.matches("- date:").count() == 2 && last.contains("volts: 9.7 V"),
        "{last}"
    );
    run(dir.path(), &["--library", "library", "check"]).ends(0);
    let changed = files(&library).into_iter().zip(all).filter(|(now, then)| now != then).count();
    assert_eq!(changed, 1, "one file changed and none came");
}

#[test]
fn readings_that_fit_no_row_or_have_faults_are_told() {
    let (dir, _library) = library();
    let path = dir.path().join(SURVEY);
    let before = fs::read_to_string(&path).expect("the survey");
    for (row, says) in [
        ("row: \"1.2\", what: feed, volts: 13.6", "has no unit"),
        ("row: \"1.2\", what: feed, volts: 13.6 V, ohms: 3 Ω", "has more"),
        ("row: \"1.2\", what: feed, volt: 13.6 V", "volts"),
        ("what: feed, volts: 13.6 V", "row"),
    ] {
        readings(dir.path(), "2026-11-12", &[row]);
        let ran = bring(dir.path()).ends(1);
        assert!(ran.err.contains(says) && ran.err.contains("readings.yaml"), "{says}: {ran:?}");
        assert_eq!(fs::read_to_string(&path).expect("the survey"), before);
    }
    // Nothing that was read is lost: it goes in, and is told.
    for (row, says) in [
        ("row: \"9.99\", what: feed, volts: 13.6 V", "no such row"),
        ("row: \"1.2\", what: another, volts: 13.6 V", "now has there: feed of the board"),
        ("row: \"1.2\", what: feed of the board, ohms: 3 Ω", "read in V"),
    ] {
        fs::write(&path, &before).expect("written");
        readings(dir.path(), "2026-11-12", &[row]);
        let ran = bring(dir.path()).ends(1);
        assert!(ran.out.contains("NOT HELD") && ran.out.contains(says), "{says}: {ran:?}");
        assert!(fs::read_to_string(&path).expect("the survey").contains("as_left:"));
    }
    fs::write(dir.path().join("readings.yaml"), "readings: { other: { date: 2026-11-12, readings: [] } }\n")
        .expect("written");
    assert!(bring(dir.path()).ends(1).err.contains("those of other"));
    let demo = run(dir.path(), &["readings", "lantern-bakery", "readings.yaml"]).ends(2);
    assert!(demo.err.contains("a library of your own"), "{demo:?}");
}

#[test]
fn a_survey_in_another_style_keeps_its_bytes() {
    let (dir, _library) = library();
    let path = dir.path().join(SURVEY);
    let before = fs::read_to_string(&path).expect("the survey").replace('\n', "\r\n");
    let before = format!("\u{feff}{}", before.trim_end());
    fs::write(&path, &before).expect("written");
    readings(dir.path(), "2026-11-12", &["row: \"1.2\", what: feed of the board, volts: 13.6 V"]);
    bring(dir.path()).ends(0);
    let after = fs::read_to_string(&path).expect("the survey");
    assert!(after.starts_with(&before) && !after.replace("\r\n", "").contains('\n'), "{after:?}");
    // Visits in brackets can't take another without a change of what is there: that is said, and nothing is done.
    let flow = "as_left: [ { date: 2026-11-12, readings: [ { row: \"1.2\", what: x, volts: 1 V } ] } ]\n";
    let text = before.trim_start_matches('\u{feff}').replace("\r\n", "\n") + "\n" + flow;
    fs::write(&path, &text).expect("written");
    readings(dir.path(), "2026-11-13", &["row: \"1.2\", what: feed of the board, volts: 13.6 V"]);
    let ran = bring(dir.path()).ends(1);
    assert!(ran.err.contains("as_left"), "{ran:?}");
    assert_eq!(fs::read_to_string(&path).expect("the survey"), text);
}
