//! `new card`, `new survey`, `new library`.

use super::run::{files, folder, names, run};
use std::fs;

#[test]
fn a_new_library_is_checked_without_faults_and_holds_only_what_is_true_everywhere() {
    let dir = folder();
    run(dir.path(), &["new", "library", "ours"]).ends(0);
    let checked = run(dir.path(), &["--library", "ours", "check"]).ends(0);
    assert!(checked.out.contains("no faults"), "{checked:?}");
    let ours = dir.path().join("ours");
    assert!(names(&ours.join("panels")).is_empty() && names(&ours.join("boards")).is_empty());
    assert!(names(&ours.join("devices")).len() >= 12 && names(&ours.join("cables")).len() >= 6);
    assert!(ours.join("terms.yaml").is_file() && ours.join("rules/en-50131.yaml").is_file());
    assert_eq!(names(dir.path()), ["ours"], "nothing is left beside it");
}

#[test]
fn a_new_library_takes_an_empty_folder_and_refuses_any_other() {
    let dir = folder();
    fs::create_dir(dir.path().join("empty")).expect("a folder");
    run(dir.path(), &["new", "library", "empty"]).ends(0);
    let before = files(dir.path());
    run(dir.path(), &["new", "library", "empty"]).ends(2);
    fs::write(dir.path().join("file"), "mine").expect("a file");
    run(dir.path(), &["new", "library", "file"]).ends(2);
    run(dir.path(), &["new", "library", "file/inside"]).ends(2);
    fs::remove_file(dir.path().join("file")).expect("it was kept as a file");
    assert_eq!(files(dir.path()), before);
    run(dir.path(), &["new", "library", "deep/er/ours"]).ends(0);
}

#[test]
fn new_files_go_where_they_belong_and_take_no_other_ones_place() {
    let dir = folder();
    run(dir.path(), &["new", "library", "ours"]).ends(0);
    for (kind, place) in
        [("panel", "panels"), ("board", "boards"), ("device", "devices"), ("cable", "cables"), ("supply", "supplies")]
    {
        let args = ["--library", "ours", "new", "card", kind, "alder-9"];
        run(dir.path(), &args).ends(0);
        let path = dir.path().join("ours").join(place).join("alder-9.yaml");
        let text = fs::read_to_string(&path).expect("the new card");
        assert!(text.contains("alder-9") && text.contains(kind), "{text}");
        fs::write(&path, "mine").expect("a change");
        let again = run(dir.path(), &args).ends(2);
        assert!(again.err.contains("there already"), "{again:?}");
        assert_eq!(fs::read_to_string(&path).expect("the card"), "mine");
    }
    run(dir.path(), &["--library", "ours", "new", "survey", "quay-1"]).ends(0);
    assert!(dir.path().join("ours/surveys/quay-1.yaml").is_file());
    run(dir.path(), &["new", "survey", "quay-2"]).ends(0);
    assert!(dir.path().join("quay-2.yaml").is_file());
    run(dir.path(), &["new", "card", "panel", "alder-9"]).ends(2);
}

#[test]
fn an_id_with_a_path_in_it_is_refused() {
    let dir = folder();
    run(dir.path(), &["new", "library", "ours"]).ends(0);
    let before = files(dir.path());
    for id in ["../evil", "a/b", "/etc/x", "", ".", "A9", "a b", "a.yaml", "panel", "board", "é"] {
        run(dir.path(), &["--library", "ours", "new", "card", "panel", id]).ends(2);
        run(dir.path(), &["new", "survey", id]).ends(2);
    }
    assert_eq!(files(dir.path()), before);
}
