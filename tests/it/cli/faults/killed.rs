//! Killed at any moment, every command that writes leaves the old state or the new one.

use super::{MB6, folder, library, names, on, program, readings};
use std::cell::{Cell, OnceCell};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::{Duration, Instant};

/// How often each command is killed: `WIRELORE_KILLS` says.
fn kills() -> u32 {
    std::env::var("WIRELORE_KILLS").ok().and_then(|text| text.parse().ok()).unwrap_or(12)
}

/// Kills a command at moments spread over the time that it takes, and has a look each time.
fn killed(dir: &Path, args: &[&str], prepare: impl Fn(), look: impl Fn(u32)) {
    let start = || {
        let mut command = program(dir);
        command.args(args).stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("it starts")
    };
    prepare();
    let began = Instant::now();
    assert!(start().wait().expect("it ends").success());
    let whole = began.elapsed();
    for at in 0..kills() {
        prepare();
        let mut child = start();
        std::thread::sleep(whole * (at * 7 % 50) / 45 + Duration::from_micros(100));
        let _ = child.kill();
        child.wait().expect("it ends");
        look(at);
    }
}

/// What a folder holds but for what was written beside and never took its place.
fn seen(dir: &Path) -> Vec<String> {
    if !dir.exists() {
        return Vec::new();
    }
    names(dir).into_iter().filter(|name| !name.starts_with('.')).collect()
}

#[test]
fn a_note_is_whole_or_not_there() {
    let (dir, library) = library();
    let notes = library.join("notes/dunmarrow-d3");
    let args =
        ["--library", "library", "note", "dunmarrow-d3", "The lid is loose", "--by", "KM", "--date", "2026-11-20"];
    let clear = || drop(fs::remove_dir_all(&notes));
    killed(dir.path(), &args, clear, |at| {
        for name in seen(&notes) {
            let text = fs::read_to_string(notes.join(&name)).expect("a note");
            assert!(text.starts_with("---\n") && text.ends_with("The lid is loose\n"), "kill {at}: {text:?}");
        }
    });
}

/// Kills a command that writes some files of a folder: each is as it was before it, or as it is after it. `None` stands
/// for a file that is not there.
fn each_is_old_or_new(dir: &Path, args: &[&str], paths: &[PathBuf]) {
    let read = || paths.iter().map(|path| fs::read(path).ok()).collect::<Vec<_>>();
    let old = read();
    let new = OnceCell::new();
    let again = || {
        // The first time nothing was done yet, the second time all of it.
        let now = read();
        if now != old && new.get().is_none() {
            let _ = new.set(now);
        }
        for (path, bytes) in paths.iter().zip(&old) {
            match bytes {
                Some(bytes) => fs::write(path, bytes).expect("the old file"),
                None => drop(fs::remove_file(path)),
            }
        }
    };
    let seen = [Cell::new(0), Cell::new(0)];
    killed(dir, args, again, |at| {
        let new = new.get().expect("the command changes something");
        for (at_path, now) in read().iter().enumerate() {
            let is_new = new.get(at_path) == Some(now);
            assert!(is_new || old.get(at_path) == Some(now), "kill {at}: {}", paths[at_path].display());
            let count = &seen[usize::from(is_new)];
            count.set(count.get() + 1);
        }
    });
    println!("killed: {} times the old file, {} times the new one", seen[0].get(), seen[1].get());
}

#[test]
fn a_new_card_is_whole_or_not_there() {
    let (dir, library) = library();
    let args = ["--library", "library", "new", "card", "panel", "new-one"];
    each_is_old_or_new(dir.path(), &args, &[library.join("panels/new-one.yaml")]);
}

#[test]
fn a_card_that_is_corrected_is_the_old_one_or_the_new_one() {
    let (dir, _) = library();
    let args = ["--library", "library", "set", "merrowby-mb6", "F2", "rating=2 A", "--cite", "manual p.5"];
    each_is_old_or_new(dir.path(), &args, &[dir.path().join(MB6)]);
    on(dir.path(), &["check"]).ends(0);
}

#[test]
fn a_survey_that_gets_readings_is_the_old_one_or_the_new_one() {
    let (dir, library) = library();
    readings(dir.path());
    let args = ["--library", "library", "readings", "lantern-bakery", "readings.yaml"];
    each_is_old_or_new(dir.path(), &args, &[library.join("surveys/lantern-bakery.yaml")]);
    on(dir.path(), &["check"]).ends(0);
}

#[test]
fn a_page_for_the_pocket_is_the_old_one_or_the_new_one() {
    let (dir, _) = library();
    on(dir.path(), &["pack", "library/surveys", "-o", "packs"]).ends(0);
    on(dir.path(), &["pocket", "-o", "pocket.html"]).ends(0);
    let args = ["--library", "library", "pocket", "--packs", "packs", "-o", "pocket.html"];
    each_is_old_or_new(dir.path(), &args, &[dir.path().join("pocket.html")]);
}

/// Three files, one after the other: each is whole, and the next run puts all three right.
#[test]
fn each_file_of_an_index_over_folders_is_the_old_one_or_the_new_one() {
    let (dir, _) = library();
    on(dir.path(), &["pack", "lantern-bakery", "-o", "one"]).ends(0);
    on(dir.path(), &["pack", "library/surveys", "-o", "two"]).ends(0);
    on(dir.path(), &["index", "one", "-o", "all"]).ends(0);
    let paths = ["index.html", "gaps.html", "index.json"].map(|name| dir.path().join("all").join(name));
    each_is_old_or_new(dir.path(), &["index", "two", "-o", "all"], &paths);
}

/// A pack that is there changes place with the new one at one moment: there is never none, and never half of one.
#[test]
fn a_pack_is_the_old_one_or_the_new_one() {
    let dir = folder();
    let place = dir.path().join("out/lantern-bakery");
    let days = ["2026-01-01", "2026-02-02"];
    for date in days {
        let args = ["pack", "lantern-bakery", "-o", "out", "--date", date];
        killed(
            dir.path(),
            &args,
            || {},
            |at| {
                for entry in seen(&place) {
                    let path = place.join(entry);
                    let text = if path.is_dir() { continue } else { fs::read_to_string(&path).expect("a file") };
                    assert!(text.ends_with('\n') && !text.is_empty(), "kill {at}: {}", path.display());
                }
                let read = |name: &str| fs::read_to_string(place.join(name)).expect("a pack is there");
                let (page, text) = (read("pack.html"), read("pack.md"));
                let dated = |text: &str| days.iter().position(|date| text.contains(date));
                assert!(dated(&page).is_some(), "kill {at}");
                assert_eq!(dated(&page), dated(&text), "kill {at}: the pages are of two packs");
            },
        );
    }
}
