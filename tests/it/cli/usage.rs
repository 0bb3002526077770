//! Usage, exit codes, printing.

use super::run::{folder, library, program, ran, run};
use std::fs::OpenOptions;
use std::io::Read;
use std::process::Stdio;

#[test]
fn help_is_done_and_wrong_usage_is_two() {
    let dir = folder();
    for args in [&["--help"][..], &["--version"], &["find", "--help"], &["new", "card", "--help"], &["pack", "-h"]] {
        run(dir.path(), args).ends(0);
    }
    let wrong = [
        &[][..],
        &["nosuch"],
        &["find"],
        &["find", "A+", "--kind", "screws"],
        &["find", "A+", "--limit", "0"],
        &["find", "A+", "--jsno"],
        &["show"],
        &["pack"],
        &["pack", "lantern-bakery", "--date", "tomorrow"],
        &["pack", "lantern-bakery", "--threads", "0"],
        &["note", "merrowby-mb6"],
        &["note", "merrowby-mb6", "x", "--how", "guessed"],
        &["new", "card", "toaster", "x"],
    ];
    for args in wrong {
        let ran = run(dir.path(), args).ends(2);
        assert!(!ran.err.is_empty() && ran.out.is_empty(), "{args:?}: {ran:?}");
    }
}

#[test]
fn a_library_that_is_not_there_is_the_machines() {
    let dir = folder();
    for command in [&["find", "A+"][..], &["show", "merrowby-mb6"], &["check"], &["pack", "lantern-bakery"]] {
        let args: Vec<&str> = ["--library", "nosuch"].into_iter().chain(command.iter().copied()).collect();
        let ran = run(dir.path(), &args).ends(2);
        assert!(ran.err.contains("can't open the library nosuch"), "{ran:?}");
    }
    assert_eq!(super::run::names(dir.path()), Vec::<String>::new());
}

#[test]
fn the_environment_names_the_library_and_the_option_wins() {
    let (dir, library) = library();
    let with = |args: &[&str]| {
        let output = program(dir.path()).env("WIRELORE_LIBRARY", "nosuch").args(args).output();
        ran(&output.expect("the program starts"))
    };
    with(&["show", "merrowby-mb6"]).ends(2);
    with(&["--library", library.to_str().expect("a path"), "show", "merrowby-mb6"]).ends(0);
    let empty = program(dir.path()).env("WIRELORE_LIBRARY", "").args(["show", "merrowby-mb6"]).output();
    ran(&empty.expect("the program starts")).ends(0);
}

#[test]
fn a_reader_that_closes_early_is_no_fault() {
    let dir = folder();
    let mut child = program(dir.path())
        .args(["show", "merrowby-mb6"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stdout.take());
    let status = child.wait().expect("the program ends");
    let mut err = String::new();
    child.stderr.take().expect("standard error").read_to_string(&mut err).expect("text");
    assert_eq!((status.code(), err.as_str()), (Some(0), ""));
}

#[test]
#[cfg(target_os = "linux")]
fn an_output_that_is_full_is_the_machines() {
    let dir = folder();
    let full = OpenOptions::new().write(true).open("/dev/full").expect("/dev/full");
    let output = program(dir.path()).args(["show", "merrowby-mb6"]).stdout(full).output();
    let ran = ran(&output.expect("the program starts")).ends(2);
    assert!(ran.err.contains("can't write to standard output"), "{ran:?}");
}

#[test]
fn escapes_in_content_and_in_arguments_are_shown_and_not_sent() {
    let (dir, library) = library();
    let library = library.to_str().expect("a path");
    let evil = "caf\u{e9} \u{1b}]0;owned\u{7}\u{9b}31m \u{202e}drow";
    run(dir.path(), &["--library", library, "note", "merrowby-mb6", evil, "--by", "KM\u{1b}[2J"]).ends(0);
    for args in [
        &["show", "merrowby-mb6"][..],
        &["find", "owned"],
        &["find", "owned", "--json"],
        &["find", evil],
        &["show", evil],
        &["pack", evil],
        &["pack", "x", "--date", evil],
        &[evil],
    ] {
        let args: Vec<&str> = ["--library", library].into_iter().chain(args.iter().copied()).collect();
        let ran = run(dir.path(), &args);
        let sent = |text: &str| text.contains(|c: char| (c.is_control() && c != '\n') || c == '\u{202e}');
        assert!(!sent(&ran.out) && !sent(&ran.err), "{args:?}: {ran:?}");
    }
    let found = run(dir.path(), &["--library", library, "find", "owned", "--kind", "note", "--json"]).ends(0);
    let json: serde_json::Value = serde_json::from_str(&found.out).expect("JSON");
    assert_eq!(json["hits"][0]["text"], evil, "JSON keeps every sign");
}
