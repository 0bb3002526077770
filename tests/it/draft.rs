//! Cards begun from tables of terminals.

mod sheets;
mod tables;

use std::fs;
use std::path::Path;
use std::process::Command;
use wirelore::check;
use wirelore::draft::{CellFault, Draft, Wish, draft};
use wirelore::source::{Files, table};

/// The draft of a panel from a table, with the demo library's rings.
fn drafted(bytes: &[u8], columns: &[(&str, &str)]) -> Result<Draft, Vec<CellFault>> {
    let terms = check::library(&Files::embedded()).value.terms;
    let read = table(bytes).map_err(|fault| {
        vec![CellFault { place: String::new(), found: String::new(), message: fault.message, help: fault.help }]
    })?;
    let columns: Vec<(String, String)> =
        columns.iter().map(|(field, place)| ((*field).to_owned(), (*place).to_owned())).collect();
    draft(&read, &terms, &Wish { kind: "panel", id: "quayside-qx4", file: "table.csv", columns: &columns })
}

#[track_caller]
fn text(bytes: &[u8]) -> String {
    drafted(bytes, &[]).unwrap_or_else(|faults| panic!("{faults:#?}")).text
}

#[track_caller]
fn faults(bytes: &[u8]) -> Vec<(String, String)> {
    let faults = drafted(bytes, &[]).expect_err("faults");
    assert!(faults.iter().all(|fault| !fault.help.is_empty() && !fault.place.is_empty()), "{faults:#?}");
    faults.into_iter().map(|fault| (fault.place, fault.message)).collect()
}

/// A draft in a library has no fault that the table did not have.
fn checked(text: &str) {
    let mut files = Files::embedded();
    files.files.insert("panels/quayside-qx4.yaml".to_owned(), Ok(text.as_bytes().to_vec()));
    let faults = check::library(&files).faults;
    assert!(faults.is_empty(), "{text}\n{faults:#?}");
}

/// The command, in a folder with a library of its own.
fn new_card(dir: &Path, args: &[&str]) -> (Option<i32>, String, String) {
    if !dir.join("ours").exists() {
        let made =
            Command::new(env!("CARGO_BIN_EXE_wirelore")).current_dir(dir).args(["new", "library", "ours"]).output();
        assert!(made.expect("it runs").status.success());
    }
    let mut command = Command::new(env!("CARGO_BIN_EXE_wirelore"));
    command.current_dir(dir).env_remove("WIRELORE_LIBRARY").args(["--library", "ours"]).args(args);
    let output = command.output().expect("it runs");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (output.status.code(), text(&output.stdout), text(&output.stderr))
}

#[test]
fn the_command_shows_the_columns_and_writes_a_card_that_check_takes() {
    let dir = tempfile::tempdir().expect("a folder");
    fs::write(dir.path().join("qx4.csv"), tables::GOOD).expect("written");
    let (code, out, err) = new_card(dir.path(), &["new", "card", "panel", "quayside-qx4", "--from", "qx4.csv"]);
    assert_eq!((code, err.as_str()), (Some(0), ""), "{out}");
    for line in [
        "semicolons between its cells",
        "Terminal",
        "guessed",
        "15 terminals",
        "line 1: a heading",
        "Wrote ours/panels/quayside-qx4.yaml",
    ] {
        assert!(out.contains(line), "{line}: {out}");
    }
    let path = dir.path().join("ours/panels/quayside-qx4.yaml");
    let text = fs::read_to_string(&path).expect("the card");
    assert!(text.starts_with("# yaml-language-server: $schema=../.schemas/panel.json\n"), "{text}");
    let (code, out, _) = new_card(dir.path(), &["check", "ours/panels/quayside-qx4.yaml"]);
    assert_eq!(code, Some(0), "{out}");
    let order = ["external sounder and its strobe are wired", "mains", "F2", "printed as unverified"];
    let places: Vec<usize> =
        order.iter().map(|words| out.find(words).unwrap_or_else(|| panic!("{words}: {out}"))).collect();
    assert!(places.is_sorted(), "{out}");
    let (code, _, err) = new_card(dir.path(), &["new", "card", "panel", "quayside-qx4", "--from", "qx4.csv"]);
    assert!(code == Some(2) && err.contains("there already"), "{err}");
    assert_eq!(fs::read_to_string(&path).expect("the card"), text);
}

#[test]
fn the_command_names_columns_and_refuses_what_it_can_not_read() {
    let dir = tempfile::tempdir().expect("a folder");
    fs::write(dir.path().join("t.csv"), "1,A+,feeds\n2,A-,common\n").expect("written");
    fs::write(dir.path().join("bad.csv"), "mark,voltage\nA+,13.7\nA+,\n").expect("written");
    let card = |more: &[&str]| {
        let args: Vec<&str> = ["new", "card", "panel", "qx"].iter().chain(more).copied().collect();
        new_card(dir.path(), &args)
    };
    let (code, _, err) = card(&["--from", "t.csv"]);
    assert!(code == Some(1) && err.contains("--columns mark=1,does=2"), "{err}");
    let (code, _, err) = card(&["--from", "t.csv", "--columns", "mark=9"]);
    assert!(code == Some(1) && err.contains("no column `9`"), "{err}");
    let (code, _, err) = card(&["--from", "t.csv", "--columns", "mrk=2"]);
    assert!(code == Some(1) && err.contains("did you mean `mark`"), "{err}");
    let (code, _, err) = card(&["--from", "bad.csv"]);
    assert!(code == Some(1) && err.contains("bad.csv, line 2, column 2") && err.contains("no unit"), "{err}");
    assert!(
        err.contains("line 3, column 1") && err.contains("here twice") && err.contains("2 faults in bad.csv"),
        "{err}"
    );
    assert_eq!(card(&["--from", "none.csv"]).0, Some(2));
    assert_eq!(card(&["--columns", "mark=1"]).0, Some(2));
    assert_eq!(new_card(dir.path(), &["new", "card", "device", "qx", "--from", "t.csv"]).0, Some(2));
    assert!(!dir.path().join("ours/panels/qx.yaml").exists());
    let (code, out, err) = card(&["--from", "t.csv", "--columns", "mark=2,does=3"]);
    assert_eq!(code, Some(0), "{out}{err}");
    let text = fs::read_to_string(dir.path().join("ours/panels/qx.yaml")).expect("the card");
    assert!(text.contains("- mark: A+\n    does: \"feeds\"\n    # column 1: 1\n"), "{text}");
}
