//! A disk that is full: a small tmpfs, where mounting works.

#![cfg(target_os = "linux")]

use super::{files, library, on, program, ran};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A mounted tmpfs, unmounted when it is dropped.
struct Disk<'p>(&'p Path);

impl<'p> Disk<'p> {
    fn new(place: &'p Path, size: &str) -> Option<Self> {
        fs::create_dir_all(place).ok()?;
        let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", size, "tmpfs"]).arg(place).output().ok()?;
        mounted.status.success().then_some(Self(place))
    }
}

impl Drop for Disk<'_> {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0).status();
    }
}

#[test]
fn a_full_disk_leaves_a_library_as_it_was() {
    let (dir, real) = library();
    let place = dir.path().join("disk");
    let Some(_disk) = Disk::new(&place, "size=2m") else { return eprintln!("skipped: a tmpfs can't be mounted here") };
    let copied = Command::new("cp").arg("-r").arg(&real).arg(&place).status();
    assert!(copied.is_ok_and(|status| status.success()));
    on(&place, &["check"]).ends(0);
    // What is left is filled up to the last byte.
    let _ = fs::write(place.join("fill"), vec![0; 4 << 20]);
    let before = files(&place);
    for args in [
        &["note", "merrowby-mb6", "The lid is loose", "--by", "KM"][..],
        &["set", "merrowby-mb6", "F2", "rating=2 A", "--cite", "bench"],
        &["new", "card", "panel", "new-one"],
        &["new", "survey", "new-one"],
        &["pack", "library/surveys", "-o", "out"],
        &["sheet", "merrowby-mb6", "-o", "out"],
        &["new", "library", "other"],
    ] {
        let ran = on(&place, args).ends(2);
        assert!(ran.err.contains("error: can't"), "{args:?}: {ran:?}");
    }
    // Folders may be left, and the lock of a folder of packs, which is empty; no other file is, and none is another.
    let after: Vec<_> = files(&place).into_iter().filter(|(path, _)| !path.ends_with(".wirelore/lock")).collect();
    let names = |files: &[(PathBuf, Vec<u8>)]| files.iter().map(|(path, _)| path.clone()).collect::<Vec<_>>();
    assert_eq!(names(&after), names(&before));
    assert!(after == before, "a file has changed");
    // Nothing can be kept, and the question is answered.
    let mut command = program(&place);
    command.env("XDG_CACHE_HOME", place.join("cache")).args(["--library", "library", "find", "STB"]);
    let ran = ran(&command.output().expect("it starts")).ends(0);
    assert!(ran.out.contains("STB"), "{ran:?}");
}
