//! `check` as a command: paths, JSON, exit codes. What each fault says is tested with the check room.

use super::run::{folder, library, run};
use serde_json::Value;
use std::fs;

#[test]
fn the_demo_library_is_without_faults() {
    let ran = run(folder().path(), &["check"]).ends(0);
    assert!(ran.out.contains("no faults"), "{ran:?}");
}

#[test]
fn a_fault_is_told_with_its_place_and_as_json() {
    let (dir, library) = library();
    let card = library.join("panels/merrowby-mb6.yaml");
    let text = fs::read_to_string(&card).expect("a card").replace("maker: Merrowby", "makr: Merrowby");
    fs::write(&card, text).expect("a changed card");
    let whole = run(dir.path(), &["--library", "library", "check"]).ends(1);
    assert!(whole.out.contains("library/panels/merrowby-mb6.yaml:") && whole.out.contains("maker"), "{whole:?}");
    assert!(whole.out.contains('^'), "{whole:?}");
    for path in ["library/panels/merrowby-mb6.yaml", "library/panels", "library"] {
        let ran = run(dir.path(), &["check", path, "--json"]).ends(1);
        let faults: Value = serde_json::from_str(&ran.out).expect("JSON");
        let first = &faults[0];
        assert_eq!(first["file"], "library/panels/merrowby-mb6.yaml", "{path}");
        assert!(first["line"].is_u64() && first["column"].is_u64() && first["message"].is_string());
    }
    run(dir.path(), &["check", "library/boards"]).ends(0);
    run(dir.path(), &["check", "library/boards/fennick-f8.yaml"]).ends(0);
    for (folder, path, named) in [
        ("", "panels/merrowby-mb6.yaml", "--> panels/merrowby-mb6.yaml:"),
        ("", "./panels", "--> ./panels/merrowby-mb6.yaml:"),
        ("", ".", "--> ./panels/merrowby-mb6.yaml:"),
        ("panels", "merrowby-mb6.yaml", "/library/panels/merrowby-mb6.yaml:"),
        ("boards", "../panels", "/library/panels/merrowby-mb6.yaml:"),
    ] {
        let ran = run(&library.join(folder), &["check", path]).ends(1);
        assert!(ran.out.contains(named), "{folder} {path}: {ran:?}");
    }
}

#[test]
fn a_survey_and_a_card_elsewhere_are_checked_against_the_library() {
    let (dir, library) = library();
    fs::copy(library.join("surveys/lantern-bakery.yaml"), dir.path().join("job.yaml")).expect("a copy");
    fs::copy(library.join("panels/merrowby-mb6.yaml"), dir.path().join("merrowby-mb6.yaml")).expect("a copy");
    run(dir.path(), &["check", "job.yaml", "merrowby-mb6.yaml"]).ends(0);
    let text = fs::read_to_string(dir.path().join("merrowby-mb6.yaml")).expect("a card");
    fs::write(dir.path().join("merrowby-mb6.yaml"), text.replace("maker: Merrowby", "makr: Merrowby"))
        .expect("written");
    let ran = run(dir.path(), &["check", "job.yaml", "merrowby-mb6.yaml"]).ends(1);
    assert!(ran.out.contains("--> merrowby-mb6.yaml:"), "{ran:?}");
}

#[test]
fn every_fault_of_a_run_is_told_and_what_cant_be_read_is_the_machines() {
    let dir = folder();
    fs::write(dir.path().join("a.yaml"), "survey: [").expect("written");
    fs::write(dir.path().join("b.yaml"), "").expect("written");
    fs::write(dir.path().join("c.yaml"), [0xff, 0xfe]).expect("written");
    fs::create_dir(dir.path().join("folder.yaml")).expect("a folder");
    let ran = run(dir.path(), &["check", "a.yaml", "b.yaml", "c.yaml"]).ends(1);
    for file in ["a.yaml", "b.yaml", "c.yaml"] {
        assert!(ran.out.contains(&format!("--> {file}:")), "{file}: {ran:?}");
    }
    let ran = run(dir.path(), &["check", "nosuch.yaml", "a.yaml"]).ends(2);
    assert!(ran.err.contains("nosuch.yaml") && ran.out.contains("a.yaml"), "{ran:?}");
    run(dir.path(), &["check", "folder.yaml"]).ends(0);
}

#[test]
fn a_card_with_a_fault_is_left_out_with_a_warning() {
    let (dir, library) = library();
    fs::write(library.join("panels/merrowby-mb6.yaml"), "kind: panel\n").expect("written");
    let shown = run(dir.path(), &["--library", "library", "show", "quillace-q4"]).ends(0);
    assert!(shown.err.contains("warning"), "{shown:?}");
    run(dir.path(), &["--library", "library", "show", "merrowby-mb6"]).ends(1);
}

#[test]
#[cfg(unix)]
fn a_pipe_is_not_waited_for() {
    let dir = folder();
    let made = std::process::Command::new("mkfifo").arg(dir.path().join("pipe.yaml")).status();
    assert!(made.is_ok_and(|status| status.success()), "mkfifo is there on every unix");
    run(dir.path(), &["check", "pipe.yaml"]).ends(2);
    run(dir.path(), &["pack", "pipe.yaml"]).ends(2);
}
