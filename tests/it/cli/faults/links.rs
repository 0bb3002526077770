//! Links that lead out of where they lie, and such as lead nowhere.

use super::{MB6, files, library, on};
use std::fs;
use std::os::unix::fs::symlink;

#[test]
fn a_card_behind_a_link_that_leads_out_is_refused() {
    let (dir, library) = library();
    fs::write(dir.path().join("secret"), "password: hunter2\n").expect("a file");
    symlink(dir.path().join("secret"), library.join("panels/out.yaml")).expect("a link");
    symlink("../../secret", library.join("devices/out.yaml")).expect("a link");
    for args in [&["check"][..], &["check", "--no-cache"]] {
        let ran = on(dir.path(), args).ends(1);
        assert_eq!(
            ran.out.matches("leads out of the library").count() + ran.err.matches("leads out of the library").count(),
            2,
            "{ran:?}"
        );
        assert!(!ran.out.contains("hunter2") && !ran.err.contains("hunter2"), "{ran:?}");
    }
    let ran = on(dir.path(), &["show", "out"]).ends(1);
    assert!(!ran.out.contains("hunter2") && !ran.err.contains("hunter2"), "{ran:?}");
}

#[test]
fn a_link_within_the_library_is_followed() {
    let (dir, library) = library();
    fs::rename(dir.path().join(MB6), library.join("elsewhere.yaml")).expect("moved");
    symlink("../elsewhere.yaml", dir.path().join(MB6)).expect("a link");
    on(dir.path(), &["check"]).ends(0);
}

#[test]
fn nothing_is_written_through_a_link_that_leads_out() {
    let (dir, library) = library();
    let outside = dir.path().join("outside");
    fs::create_dir(&outside).expect("a folder");
    fs::remove_dir_all(library.join("notes")).expect("it goes");
    symlink(&outside, library.join("notes")).expect("a link");
    let ran = on(dir.path(), &["note", "merrowby-mb6", "The lid is loose", "--by", "KM"]).ends(2);
    assert!(ran.err.contains("leads out of the library"), "{ran:?}");
    fs::remove_dir_all(library.join("supplies")).expect("it goes");
    symlink(&outside, library.join("supplies")).expect("a link");
    let ran = on(dir.path(), &["new", "card", "supply", "new-one"]).ends(2);
    assert!(ran.err.contains("leads out of the library"), "{ran:?}");
    assert!(files(&outside).is_empty());
}

#[test]
fn a_whole_folder_behind_a_link_that_leads_out_is_refused_with_and_without_a_cache() {
    let (dir, library) = library();
    fs::rename(library.join("panels"), dir.path().join("panels")).expect("moved");
    symlink("../panels", library.join("panels")).expect("a link");
    let told = |args: &[&str]| {
        let ran = on(dir.path(), args);
        (ran.code, ran.out, ran.err)
    };
    let kept = told(&["check"]);
    assert_eq!(kept, told(&["check", "--no-cache"]));
    assert_eq!(kept.0, Some(1));
    let found = told(&["find", "STB"]);
    assert_eq!(found, told(&["find", "STB", "--no-cache"]));
    assert!(!found.1.contains("merrowby"), "{found:?}");
}

#[test]
fn ids_and_names_cant_leave_their_folders() {
    let (dir, _) = library();
    let before = files(dir.path());
    for id in ["../x", "/tmp/x", "a/b", "..", ".", "", "a\0b", "-x/..", "a\nb", "A"] {
        if id.contains('\0') {
            continue;
        }
        for args in [
            &["new", "card", "panel", "--", id][..],
            &["new", "survey", "--", id],
            &["note", "--by", "KM", "--", id, "words"],
            &["set", "--", id, "AUX+", "volts=1 V"],
            &["show", "--", id],
        ] {
            let ran = on(dir.path(), args);
            assert!(ran.code.is_some_and(|code| code == 1 || code == 2), "{args:?}: {ran:?}");
        }
    }
    assert_eq!(files(dir.path()), before, "something was written");
}
