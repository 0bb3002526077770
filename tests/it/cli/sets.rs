//! `wirelore set`.

use super::run::{files, library, names, program, ran, run};
use std::fs;
use std::path::Path;
use std::process::Stdio;

fn set(dir: &Path, args: &[&str]) -> super::run::Ran {
    let all: Vec<&str> = ["--library", "library", "set"].iter().chain(args).copied().collect();
    run(dir, &all)
}

const MB6: &str = "library/panels/merrowby-mb6.yaml";

#[test]
fn a_fact_is_corrected_and_the_difference_is_shown() {
    let (dir, library) = library();
    let before = files(&library);
    let old = fs::read_to_string(dir.path().join(MB6)).expect("the card");
    let ran = set(dir.path(), &["merrowby-mb6", "F2", "rating=1.6 A", "--cite", "bench"]).ends(0);
    let new = fs::read_to_string(dir.path().join(MB6)).expect("the card");
    assert_eq!(
        new,
        old.replace("mark: F2, rating: 1 A,", "mark: F2, rating: 1.6 A,").replace(
            "where: \"above AUX\", cite: \"manual p.5\"",
            "where: \"above AUX\", cite: [\"manual p.5\", bench]"
        )
    );
    assert!(ran.out.contains("merrowby-mb6.yaml, line 42\n- ") && ran.out.contains("\n+ "), "{ran:?}");
    assert!(
        ran.out.contains("still cited by manual p.5") && ran.out.contains("set merrowby-mb6 F2 cite=bench"),
        "{ran:?}"
    );
    let changed = files(&library).into_iter().zip(before).filter(|(now, then)| now != then).count();
    assert_eq!(changed, 1, "one file changed and none came");
    let again = set(dir.path(), &["merrowby-mb6", "F2", "rating=1.6 A", "--cite", "bench"]).ends(0);
    assert!(again.out.contains("Nothing to change"), "{again:?}");
}

#[test]
fn json_tells_the_difference_to_other_programs() {
    let (dir, _library) = library();
    let ran = set(dir.path(), &["merrowby-mb6", "LK2", "does=Fitted: quiet", "--cite", "bench", "--json"]).ends(0);
    let value: serde_json::Value = serde_json::from_str(&ran.out).expect("JSON");
    assert_eq!(value["place"], "links.LK2");
    assert_eq!(value["file"], MB6);
    let changed = value["changed"].as_array().expect("a list");
    assert!(changed.len() == 1 && changed[0]["new"][0].as_str().expect("a line").contains("Fitted: quiet"), "{value}");
}

#[test]
fn what_would_bring_in_a_fault_is_refused_with_the_fault() {
    let (dir, library) = library();
    let before = files(&library);
    for (args, code, says) in [
        (&["merrowby-mb6", "F2", "rating=1.6", "--cite", "bench"][..], 1, "has no unit"),
        (&["merrowby-mb6", "STB", "polarity=positiv", "--cite", "bench"], 1, "did you mean `positive`"),
        (&["merrowby-mb6", "F2", "mark=F9", "--cite", "bench"], 1, "is no fuse of this card"),
        (&["merrowby-mb6", "LK2", "mark=LK3", "--cite", "bench"], 1, "about: LK2"),
        (&["merrowby-mb6", "Z1", "mark=spare", "--cite", "bench"], 1, "can't be a mark"),
        (&["merrowby-mb6", "F2", "rating=2 A", "--cite", "bnech p.1"], 1, "Did you mean bench"),
        (&["merrowby-mb6", "F2", "rating=2 A"], 2, "Add --cite"),
        (&["merrowby-mb6", "F2", "rating", "--cite", "bench"], 2, "KEY=VALUE"),
        (&["merrowby-mb6", "F22", "rating=2 A", "--cite", "bench"], 1, "Did you mean F2"),
        (&["merrowby-mb6", "F2", "ratng=2 A", "--cite", "bench"], 1, "Did you mean rating"),
        (&["merrowby-mb7", "F2", "rating=2 A", "--cite", "bench"], 1, "Did you mean merrowby-mb6"),
        (&["../merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"], 1, "no card"),
    ] {
        let ran = set(dir.path(), args).ends(code);
        assert!(ran.err.contains(says), "{args:?}: {ran:?}");
        assert_eq!(files(&library), before, "{args:?}");
    }
    let ran = run(dir.path(), &["set", "merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"]).ends(2);
    assert!(ran.err.contains("demo library inside the program") && ran.err.contains("wirelore new library"), "{ran:?}");
}

#[test]
fn a_card_with_faults_can_be_mended_one_by_one() {
    let (dir, _library) = library();
    let path = dir.path().join(MB6);
    let text = fs::read_to_string(&path).expect("the card");
    let faulty = text.replace("mark: F2, rating: 1 A", "mark: F2, rating: 1").replace("speed: T", "speed: X");
    fs::write(&path, faulty).expect("written");
    set(dir.path(), &["merrowby-mb6", "F2", "rating=1 A", "--cite", "manual p.5"]).ends(0);
    set(dir.path(), &["merrowby-mb6", "F1", "speed=Z", "--cite", "manual p.5"]).ends(1);
    set(dir.path(), &["merrowby-mb6", "F1", "speed=T", "--cite", "manual p.5"]).ends(0);
    assert_eq!(fs::read_to_string(&path).expect("the card"), text);
}

#[test]
fn a_mark_that_begins_with_a_hyphen_and_a_card_that_may_only_be_read() {
    let (dir, _library) = library();
    let path = dir.path().join(MB6);
    let text = fs::read_to_string(&path).expect("the card").replace("BAT-", "-BAT");
    fs::write(&path, &text).expect("written");
    set(dir.path(), &["merrowby-mb6", "-BAT", "notes=Blue lead", "--cite", "bench"]).ends(0);
    let mut permissions = fs::metadata(&path).expect("its permissions").permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).expect("set");
    let ran = set(dir.path(), &["merrowby-mb6", "-BAT", "notes=Black lead", "--cite", "bench"]).ends(2);
    assert!(ran.err.contains("may only be read"), "{ran:?}");
    assert!(fs::read_to_string(&path).expect("the card").contains("Blue lead"));
}

#[cfg(unix)]
#[test]
fn permissions_and_links_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let (dir, library) = library();
    let (path, real) = (dir.path().join(MB6), library.join("elsewhere.yaml"));
    fs::rename(&path, &real).expect("moved");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o664)).expect("set");
    symlink(&real, &path).expect("linked");
    set(dir.path(), &["merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"]).ends(0);
    assert!(fs::symlink_metadata(&path).expect("it").is_symlink());
    assert!(fs::read_to_string(&real).expect("the card").contains("rating: 2 A"));
    assert_eq!(fs::metadata(&real).expect("it").permissions().mode() & 0o777, 0o664);
    assert!(!names(&library.join("panels")).iter().any(|name| name.starts_with('.')), "nothing is left beside it");
}

#[test]
fn many_at_once_lose_nothing() {
    let (dir, _library) = library();
    let marks =
        ["L", "N", "E", "BAT+", "BAT-", "AUX+", "AUX-", "S+", "S0", "SIR", "STB", "STR", "T", "TC", "Z1", "Z1C"];
    let started: Vec<_> = marks
        .iter()
        .map(|mark| {
            let note = format!("notes=Seen {mark}");
            let args = ["--library", "library", "set", "merrowby-mb6", mark, &note, "--cite", "bench"];
            program(dir.path()).args(args).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("it starts")
        })
        .collect();
    for child in started {
        ran(&child.wait_with_output().expect("it ends")).ends(0);
    }
    let text = fs::read_to_string(dir.path().join(MB6)).expect("the card");
    for mark in marks {
        assert!(text.contains(&format!("Seen {mark}\"")), "{mark} is lost: {text}");
    }
}

#[test]
fn a_cite_that_runs_into_a_comma_is_told_how_it_is_written() {
    let (dir, _) = library();
    let said = |cite: &str| set(dir.path(), &["merrowby-mb6", "F2", "rating=1.6 A", "--cite", cite]).ends(1).err;
    let near = said("bench, lid open");
    assert!(
        near.contains("`bench,` is no source of this card, `bench` is") && near.contains("--cite \"bench …\""),
        "{near}"
    );
    let fresh = said("loft, lid open");
    assert!(fresh.contains("first set `sources.loft how=measured title=\"…\"`"), "{fresh}");
}
