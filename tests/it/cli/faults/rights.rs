//! Without the right to read or to write.

use super::{MB6, as_nobody, files, library, on};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;

fn mode(path: &Path, mode: u32) {
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("permissions");
}

/// What writes into a library.
const WRITES: [&[&str]; 4] = [
    &["note", "merrowby-mb6", "The lid is loose", "--by", "KM"],
    &["set", "merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"],
    &["new", "card", "panel", "new-one"],
    &["new", "survey", "new-one"],
];

#[test]
fn a_library_that_may_only_be_read_is_read_and_not_changed() {
    let (dir, library) = library();
    let before = files(&library);
    for entry in fs::read_dir(&library).expect("its folders") {
        mode(&entry.expect("an entry").path(), 0o555);
    }
    mode(&library, 0o555);
    let Some(ran) = as_nobody(dir.path(), &["find", "STB"]) else {
        return eprintln!("skipped: the program can't be run as a user without rights");
    };
    assert!(ran.ends(0).out.contains("STB"));
    for args in WRITES {
        let ran = as_nobody(dir.path(), args).expect("it was run before").ends(2);
        assert!(ran.err.contains("error: can't write") || ran.err.contains("error: can't change"), "{args:?}: {ran:?}");
    }
    assert_eq!(files(&library), before);
}

#[test]
fn what_may_not_be_read_is_told_of() {
    let (dir, library) = library();
    mode(&dir.path().join(MB6), 0o000);
    let Some(ran) = as_nobody(dir.path(), &["check"]) else {
        return eprintln!("skipped: the program can't be run as a user without rights");
    };
    let ran = ran.ends(2);
    assert!((ran.out + &ran.err).contains("merrowby-mb6.yaml"));
    mode(&library.join("panels"), 0o000);
    let ran = as_nobody(dir.path(), &["check"]).expect("it was run before").ends(2);
    assert!((ran.out + &ran.err).contains("this folder can't be read"));
    mode(&library, 0o000);
    for args in [&["check"][..], &["find", "STB"], &["show", "merrowby-mb6"], &["gaps"]] {
        let ran = as_nobody(dir.path(), args).expect("it was run before").ends(2);
        assert!(ran.err.contains("can't open the library"), "{args:?}: {ran:?}");
    }
    mode(&library, 0o755);
    mode(&library.join("panels"), 0o755);
    mode(&dir.path().join(MB6), 0o644);
    on(dir.path(), &["check"]).ends(0);
}
