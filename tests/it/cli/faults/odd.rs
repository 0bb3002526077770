//! What nobody expects in a folder of cards: pipes, devices, loops of links, odd names, files that go while they are
//! read, times from another age.

use super::{MB6, Ran, library, on, program, ran};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::os::unix::ffi::OsStrExt;
use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, SystemTime};

/// Runs a command that must not wait for ever.
fn ends_soon(dir: &Path, args: &[&str]) -> Ran {
    let mut command = program(dir);
    command.args(["--library", "library"]).args(args).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("it starts");
    for _ in 0..600 {
        if child.try_wait().expect("its state").is_some() {
            return ran(&child.wait_with_output().expect("it ends"));
        }
        std::thread::sleep(Duration::from_millis(100));
    }
    let _ = child.kill();
    panic!("{args:?} does not end");
}

fn pipe(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().is_ok_and(|status| status.success()));
}

#[test]
fn pipes_devices_and_loops_are_told_of_and_nothing_waits_for_them() {
    let (dir, library) = library();
    pipe(&library.join("panels/pipe.yaml"));
    fs::create_dir_all(library.join("notes/merrowby-mb6")).expect("a folder");
    pipe(&library.join("notes/merrowby-mb6/2026-01-01-pipe.md"));
    pipe(&library.join("surveys/pipe.yaml"));
    symlink("loop.yaml", library.join("boards/loop.yaml")).expect("a link");
    symlink("/dev/zero", library.join("devices/zero.yaml")).expect("a link");
    symlink("..", library.join("cables/up")).expect("a link");
    for args in [&["check"][..], &["check", "--json"], &["check", "--no-cache"]] {
        let ran = ends_soon(dir.path(), args).ends(2);
        let told = ran.out + &ran.err;
        for name in ["pipe.yaml", "2026-01-01-pipe.md", "loop.yaml", "zero.yaml"] {
            assert!(told.contains(name), "{args:?}: {name}: {told}");
        }
    }
    // The other cards are there all the same; the exit code says that something could not be read.
    for args in [&["find", "STB"][..], &["find", "STB", "--no-cache"], &["show", "merrowby-mb6"], &["notes"], &["gaps"]]
    {
        let ran = ends_soon(dir.path(), args);
        assert!(!ran.out.is_empty(), "{args:?}: {ran:?}");
    }
    ends_soon(dir.path(), &["pack", "library/surveys/pipe.yaml", "-o", "out"]).ends(2);
    pipe(&dir.path().join("pipe.xlsx"));
    ends_soon(dir.path(), &["new", "survey", "x", "--from", "pipe.xlsx"]).ends(2);
    ends_soon(dir.path(), &["new", "card", "panel", "x", "--from", "pipe.xlsx"]).ends(2);
    for args in [&["readings", "lantern-bakery", "pipe.xlsx"][..], &["readings", "lantern-bakery", "/dev/zero"]] {
        let ran = ends_soon(dir.path(), args).ends(2);
        assert!(ran.err.contains("not an ordinary file"), "{args:?}: {ran:?}");
    }
}

/// In a folder of packs and of sheets that is anybody's.
#[test]
fn pipes_where_the_program_looks_for_its_own_files_are_not_waited_for() {
    let (dir, _) = library();
    on(dir.path(), &["pack", "lantern-bakery", "-o", "packs"]).ends(0);
    on(dir.path(), &["sheet", "merrowby-mb6", "-o", "sheets", "--xlsx"]).ends(0);
    let replaced = ["packs/index.json", "packs/lantern-bakery/pack.md", "sheets/merrowby-mb6/survey.yaml"];
    for path in replaced.map(|path| dir.path().join(path)) {
        fs::remove_file(&path).expect("a file");
        pipe(&path);
    }
    for args in [&["index", "packs", "-o", "all"][..], &["pocket", "--packs", "packs", "-o", "pocket.html"]] {
        let ran = ends_soon(dir.path(), args).ends(2);
        assert!(ran.err.contains("no ordinary file"), "{args:?}: {ran:?}");
    }
    // The sheet leaves alone what it can't read; the pack is whole again.
    ends_soon(dir.path(), &["sheet", "merrowby-mb6", "-o", "sheets", "--xlsx"]).ends(0);
    ends_soon(dir.path(), &["pack", "lantern-bakery", "-o", "packs"]).ends(0);
    assert!(dir.path().join("packs/lantern-bakery/pack.md").is_file());
}

#[test]
fn odd_names_are_told_of_on_one_line_and_change_nothing_else() {
    let (dir, library) = library();
    let card = fs::read(dir.path().join(MB6)).expect("a card");
    let long = format!("{}.yaml", "x".repeat(250));
    for name in ["a\nerror: all is well.yaml", "b\u{1b}[31m.yaml", "c d\u{202e}.yaml", long.as_str()] {
        fs::write(library.join("panels").join(name), &card).expect("a card");
    }
    fs::write(library.join("panels").join(OsStr::from_bytes(b"caf\xe9.yaml")), &card).expect("a card");
    let mut told = Vec::new();
    for args in [&["check"][..], &["check", "--no-cache"]] {
        // A file whose name can't be written can't be opened by it either.
        let ran = ends_soon(dir.path(), args).ends(2);
        let text = ran.out + &ran.err;
        assert!(!text.chars().any(|c| c != '\n' && (c.is_control() || c == '\u{202e}')), "{text:?}");
        assert!(text.lines().all(|line| line.trim() != "error: all is well.yaml"), "{text}");
        assert!(text.contains("the name of this file is not UTF-8"), "{text}");
        assert!(text.contains(&long), "{text}");
        told.push(text);
    }
    assert_eq!(told[0], told[1]);
    let ran = ends_soon(dir.path(), &["find", "STB", "--json", "--limit", "50"]);
    let anew = ends_soon(dir.path(), &["find", "STB", "--json", "--limit", "50", "--no-cache"]);
    assert_eq!((ran.code, ran.out, ran.err), (anew.code, anew.out, anew.err));
}

/// Cards come and go while they are read.
#[test]
fn a_file_that_goes_while_it_is_read_is_there_or_not() {
    let (dir, library) = library();
    let card = fs::read_to_string(dir.path().join(MB6)).expect("a card").replace("merrowby-mb6", "here-and-gone");
    let path = library.join("panels/here-and-gone.yaml");
    let ended = AtomicBool::new(false);
    std::thread::scope(|scope| {
        scope.spawn(|| {
            while !ended.load(Ordering::Relaxed) {
                let _ = fs::write(&path, &card);
                let _ = fs::remove_file(&path);
            }
        });
        for _ in 0..25 {
            for args in [&["check"][..], &["find", "STB"], &["check", "--no-cache"]] {
                let ran = ends_soon(dir.path(), args);
                // Half written it has faults; gone in the last moment it can't be read.
                assert!(ran.code.is_some_and(|code| code <= 2) && !ran.err.contains("panicked"), "{args:?}: {ran:?}");
            }
        }
        ended.store(true, Ordering::Relaxed);
    });
    let _ = fs::remove_file(&path);
    on(dir.path(), &["check"]).ends(0);
}

/// The clock of the machine that wrote a card was wrong, or ours is.
#[test]
fn times_from_another_age_hide_no_change() {
    let (dir, _library) = library();
    let path = dir.path().join(MB6);
    let day = Duration::from_hours(24);
    let now = SystemTime::now();
    let ages = [SystemTime::UNIX_EPOCH, now + day * 36_500, now - day, now + day, SystemTime::UNIX_EPOCH + day, now];
    let words = ["Strobe trigger", "Zebra lamp trigger"];
    for (at, age) in ages.into_iter().enumerate() {
        let text = fs::read_to_string(&path).expect("a card");
        fs::write(&path, text.replace(words[at % 2], words[(at + 1) % 2])).expect("a card");
        File::options().write(true).open(&path).and_then(|file| file.set_modified(age)).expect("its time");
        for args in [&["find", "zebra", "--json"][..], &["find", "STB", "--json"], &["check"]] {
            let kept = on(dir.path(), args);
            let anew = on(dir.path(), &[args, &["--no-cache"]].concat());
            assert_eq!((kept.code, kept.out, kept.err), (anew.code, anew.out, anew.err), "age {at}: {args:?}");
        }
    }
}
