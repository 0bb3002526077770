//! `note`.

use super::run::{library, names, run};
use std::fs;
use std::path::Path;

fn note(library: &Path, args: &[&str]) -> super::run::Ran {
    let library = library.to_str().expect("a path");
    let args: Vec<&str> = ["--library", library, "note"].into_iter().chain(args.iter().copied()).collect();
    run(Path::new("/"), &args)
}

#[test]
fn a_note_is_a_new_file_that_the_card_then_shows() {
    let (_dir, library) = library();
    let text = "Zone 3 reads 14 Ω with the door shut: look for a joint.";
    let args = [
        "merrowby-mb6",
        text,
        "--about",
        "Z3",
        "--job",
        "1043",
        "--by",
        "no",
        "--how",
        "measured",
        "--date",
        "2026-11-24",
    ];
    let ran = note(&library, &args).ends(0);
    let path = library.join("notes/merrowby-mb6/2026-11-24-zone-3-reads-14-with-the.md");
    let written = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{e}: {ran:?}"));
    assert_eq!(
        written,
        format!("---\nabout: \"Z3\"\ndate: 2026-11-24\nby: \"no\"\njob: \"1043\"\nhow: measured\n---\n{text}\n")
    );
    let root = library.to_str().expect("a path");
    run(&library, &["--library", root, "check"]).ends(0);
    let shown = run(&library, &["--library", root, "show", "merrowby-mb6"]).ends(0);
    assert!(shown.out.contains("2026-11-24, about Z3, by no, job 1043, measured") && shown.out.contains(text));
}

#[test]
fn a_note_never_takes_the_place_of_another() {
    let (_dir, library) = library();
    let before = super::run::files(&library);
    for words in ["Same words", "Same words", "Same words"] {
        note(&library, &["quillace-q4", words, "--date", "2026-11-24"]).ends(0);
    }
    let folder = library.join("notes/quillace-q4");
    let new: Vec<String> = names(&folder).into_iter().filter(|n| n.starts_with("2026-11-24")).collect();
    assert_eq!(new, ["2026-11-24-same-words-2.md", "2026-11-24-same-words-3.md", "2026-11-24-same-words.md"]);
    let after = super::run::files(&library);
    assert!(before.iter().all(|file| after.contains(file)), "every file that was there is as it was");
}

#[test]
fn two_people_at_once_write_two_notes() {
    let (_dir, library) = library();
    let write = || note(&library, &["tarnholt-t5", "At once", "--date", "2026-11-24"]).ends(0);
    std::thread::scope(|scope| {
        for _ in 0..6 {
            scope.spawn(write);
        }
    });
    let folder = library.join("notes/tarnholt-t5");
    assert_eq!(names(&folder).iter().filter(|n| n.starts_with("2026-11-24-at-once")).count(), 6);
}

#[test]
fn marks_and_cards_are_checked_with_the_nearest_spelling() {
    let (_dir, library) = library();
    let mark = note(&library, &["merrowby-mb6", "x", "--about", "STBB"]).ends(1);
    assert!(mark.err.contains("Did you mean STB?"), "{mark:?}");
    let card = note(&library, &["merrowby-mb7", "x"]).ends(1);
    assert!(card.err.contains("merrowby-mb6"), "{card:?}");
    for about in ["F2", "LK2", "AUX-"] {
        note(&library, &["merrowby-mb6", "x", "--about", about]).ends(0);
    }
    note(&library, &["merrowby-mb6", "x", "--date", "2026-13-01"]).ends(2);
    note(&library, &["merrowby-mb6", "  "]).ends(2);
}

#[test]
fn a_note_without_a_date_has_todays() {
    let (_dir, library) = library();
    let ran = note(&library, &["merrowby-mb6", "Undated"]).ends(0);
    let name = ran.out.trim().rsplit('/').next().unwrap_or_default().to_string();
    let date: Result<jiff::civil::Date, _> = name.chars().take(10).collect::<String>().parse();
    assert!(date.is_ok() && name.ends_with("-undated.md"), "{name}");
}

#[test]
fn hostile_words_stay_words() {
    let (_dir, library) = library();
    for text in
        ["---\nabout: nonsense\n---\n", "../../../../tmp/x", "\"quoted\": [", "\u{202e}", "| a | b |\n|---|", "É"]
    {
        let by = "a\"b\\c\n---\nd";
        note(&library, &["--by", by, "--job", "{x: [", "--date", "2026-11-24", "--", "merrowby-mb6", text]).ends(0);
    }
    let root = library.to_str().expect("a path");
    let checked = run(&library, &["--library", root, "check"]);
    assert_eq!(checked.code, Some(0), "{checked:#?}");
    assert!(names(&library).iter().all(|n| n != "tmp"));
}

#[test]
fn the_library_in_the_program_cant_be_written() {
    let ran = run(Path::new("/"), &["note", "merrowby-mb6", "x"]).ends(2);
    assert!(ran.err.contains("new library"), "{ran:?}");
}
