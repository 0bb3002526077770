//! `note`.

use super::run::{library, names, program, ran, run};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::Stdio;

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

/// `.ci/notes_at_once` does the same with 64 writers of 50 notes each.
#[test]
fn many_people_at_once_lose_nothing() {
    let (_dir, library) = library();
    let library = library.as_path();
    std::thread::scope(|scope| {
        for writer in 0..6 {
            scope.spawn(move || {
                for number in 0..4 {
                    let words = format!("At once, all of us. Writer {writer}, note {number}");
                    note(library, &["tarnholt-t5", &words, "--date", "2026-11-24"]).ends(0);
                }
            });
        }
    });
    let folder = library.join("notes/tarnholt-t5");
    let all: Vec<String> = names(&folder).into_iter().filter(|n| n.starts_with("2026-11-24")).collect();
    let mut texts: Vec<String> = all.iter().map(|n| fs::read_to_string(folder.join(n)).expect("a note")).collect();
    texts.sort();
    texts.dedup();
    assert_eq!((all.len(), texts.len()), (24, 24));
    run(library, &["--library", library.to_str().expect("a path"), "check"]).ends(0);
}

/// Runs `note` with these words on standard input.
fn typed(library: &Path, args: &[&str], words: &[u8]) -> super::run::Ran {
    let mut command = program(library);
    command.arg("--library").arg(library).arg("note").args(args);
    let mut child =
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("starts");
    child.stdin.take().expect("a pipe").write_all(words).expect("is read");
    ran(&child.wait_with_output().expect("ends"))
}

#[test]
fn a_hyphen_reads_standard_input() {
    let (_dir, library) = library();
    typed(&library, &["merrowby-mb6", "-", "--date", "2026-11-24"], b"First line.\r\n\r\n- a list\r\n").ends(0);
    let path = library.join("notes/merrowby-mb6/2026-11-24-first-line-a-list.md");
    let written = fs::read_to_string(path).expect("the note");
    assert!(written.ends_with("---\nFirst line.\n\n- a list\n"), "{written}");
    typed(&library, &["merrowby-mb6", "-"], b" \n").ends(2);
    typed(&library, &["merrowby-mb6", "-"], b"\xff\xfe").ends(1);
    let none = typed(&library, &["merrowby-mb6"], b"").ends(2);
    assert!(none.err.contains("has no text") && none.err.contains("standard input"), "{none:?}");
}

#[test]
fn what_must_not_be_shared_is_refused_and_nothing_is_written() {
    let (_dir, library) = library();
    let before = super::run::files(&library);
    for (text, named) in [
        ("At the Lantern Bakery STB idles at 12.9 V", "`Lantern Bakery`"),
        ("Ring 07700 900123 first", "`07700 900123`"),
        ("Engineer code is 4471", "`4471`"),
    ] {
        let ran = note(&library, &["merrowby-mb6", text]).ends(1);
        assert!(
            ran.err.contains(named) && ran.err.contains("= help:") && ran.err.contains("Nothing was written"),
            "{ran:?}"
        );
    }
    note(&library, &["merrowby-mb6", "x", "--by", "KM, km@ferrow.example"]).ends(1);
    note(&library, &["merrowby-mb6", "At the Lantern Bakery", "--anyway"]).ends(2);
    assert_eq!(before, super::run::files(&library));
}

#[test]
fn sites_of_surveys_that_lie_elsewhere_are_refused_too() {
    let (dir, library) = library();
    let surveys = dir.path().join("jobs");
    fs::create_dir(&surveys).expect("a folder");
    fs::write(surveys.join("rose.yaml"), "survey: rose\nsite: { name: Rosemount }\n").expect("a survey");
    let surveys = surveys.to_str().expect("a path");
    let args = ["merrowby-mb6", "Rosemount has two", "--date", "2026-11-24"];
    let ran = note(&library, &[&args[..], &["--surveys", surveys]].concat()).ends(1);
    assert!(ran.err.contains("`Rosemount`"), "{ran:?}");
    note(&library, &args).ends(0);
    let root = library.to_str().expect("a path");
    run(&library, &["check", root]).ends(0);
    let checked = run(&library, &["check", root, surveys]).ends(1);
    assert!(checked.out.contains("`Rosemount` is the name or address"), "{checked:?}");
}

#[test]
fn the_check_finds_what_others_wrote() {
    let (_dir, library) = library();
    let root = library.to_str().expect("a path");
    let card = library.join("panels/merrowby-mb6.yaml");
    let text = fs::read_to_string(&card).expect("a card");
    fs::write(&card, format!("# keys: ring 01632 960123\n{text}")).expect("a card");
    let card = card.to_str().expect("a path");
    for args in [&["--library", root, "check"][..], &["check", root], &["check", card]] {
        let ran = run(&library, args).ends(1);
        assert!(
            ran.out.contains(&format!("{card}:1:14")) && ran.out.contains("`01632 960123` is a telephone"),
            "{ran:?}"
        );
    }
}

#[test]
fn a_measurement_agrees_or_disagrees_with_the_card() {
    let (_dir, library) = library();
    let measured = ["--how", "measured", "--date", "2026-11-24"];
    let with = |args: &[&str]| note(&library, &[args, &measured[..]].concat());
    with(&["merrowby-mb6", "As the card says", "--about", "STB", "--agrees"]).ends(0);
    with(&["merrowby-mb6", "Not as the card says", "--about", "STB", "--disagrees"]).ends(0);
    let told = |name: &str| fs::read_to_string(library.join("notes/merrowby-mb6").join(name)).expect("a note");
    assert!(told("2026-11-24-as-the-card-says.md").contains("\nhow: measured\nagrees: true\n---\n"));
    assert!(told("2026-11-24-not-as-the-card-says.md").contains("\nagrees: false\n"));
    with(&["merrowby-mb6", "x", "--agrees"]).ends(2);
    with(&["merrowby-mb6", "x", "--about", "STB", "--agrees", "--disagrees"]).ends(2);
    let heard = note(&library, &["merrowby-mb6", "x", "--about", "STB", "--agrees", "--how", "hearsay"]).ends(1);
    assert!(heard.err.contains("only what was measured agrees"), "{heard:?}");
}

#[test]
fn notes_are_listed_newest_first() {
    let (_dir, library) = library();
    let root = library.to_str().expect("a path");
    let all = run(&library, &["--library", root, "notes"]).ends(0);
    let dates: Vec<&str> = all.out.lines().filter(|l| l.starts_with("20")).filter_map(|l| l.get(..10)).collect();
    let mut sorted = dates.clone();
    sorted.sort_by(|a, b| b.cmp(a));
    assert!(dates.len() > 10 && dates == sorted, "{dates:?}");
    let one = run(&library, &["--library", root, "notes", "merrowby-mb6", "--json"]).ends(0);
    let json: serde_json::Value = serde_json::from_str(&one.out).expect("JSON");
    assert_eq!(json["notes"][0]["about"], "STB");
    assert_eq!(json["notes"][0]["file"], "notes/merrowby-mb6/2026-11-03-the-strobe-trigger-idles-at-129.md");
    let none = run(&library, &["--library", root, "notes", "motion-detector"]).ends(1);
    assert!(none.err.contains("There is no note on motion-detector"), "{none:?}");
    run(&library, &["--library", root, "notes", "merrowby-mb7"]).ends(1);
}

/// The editor, at a terminal of `script`'s making.
#[test]
fn without_words_the_editor_is_opened_and_what_was_typed_is_never_lost() {
    let (dir, library) = library();
    let editor = dir.path().join("editor");
    let write = |words: &str| {
        let script =
            format!("#!/bin/sh\nprintf '%s\\n' '{words}' | cat - \"$1\" > \"$1.new\" && mv \"$1.new\" \"$1\"\n");
        fs::write(&editor, script).expect("an editor");
    };
    let run_it = || {
        let line = format!(
            "{} --library {} note merrowby-mb6 --about STB --by KM --date 2026-11-24",
            env!("CARGO_BIN_EXE_wirelore"),
            library.display()
        );
        let mut command = std::process::Command::new("script");
        command.args(["-qec", &line, "/dev/null"]).env("VISUAL", format!("sh {}", editor.display()));
        command.env("TMPDIR", dir.path()).stdin(Stdio::null()).output().ok().map(|output| ran(&output))
    };
    write("It idles at 12.9 V.");
    let Some(done) = run_it() else {
        assert!(std::env::var_os("CI").is_none(), "`script` is missing");
        eprintln!("skipped: `script` is not here");
        return;
    };
    let done = done.ends(0);
    let path = library.join("notes/merrowby-mb6/2026-11-24-it-idles-at-12-9-v.md");
    let written = fs::read_to_string(path).unwrap_or_else(|e| panic!("{e}: {done:?}"));
    assert!(written.ends_with("---\nIt idles at 12.9 V.\n"), "{written}");
    write("Ring 07700 900123 first.");
    let refused = run_it().expect("script").ends(1);
    let kept = refused.out.split("Your words are in ").nth(1).and_then(|rest| rest.split(':').next()).expect("a place");
    assert_eq!(fs::read_to_string(kept).expect("the draft").trim(), "Ring 07700 900123 first.");
    write(" ");
    run_it().expect("script").ends(2);
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
