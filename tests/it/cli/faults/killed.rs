//! Killed at any moment, every command that writes leaves the old state or the new one.

use super::{folder, library, names, program};
use std::fs;
use std::path::Path;
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

#[test]
fn a_new_card_is_whole_or_not_there() {
    let (dir, library) = library();
    let path = library.join("panels/new-one.yaml");
    let args = ["--library", "library", "new", "card", "panel", "new-one"];
    let whole = std::cell::OnceCell::new();
    let clear = || {
        if let Ok(text) = fs::read_to_string(&path) {
            assert_eq!(*whole.get_or_init(|| text.clone()), text);
        }
        let _ = fs::remove_file(&path);
    };
    killed(dir.path(), &args, clear, |at| {
        if let Ok(text) = fs::read_to_string(&path) {
            assert_eq!(Some(&text), whole.get(), "kill {at}");
        }
    });
}

/// A pack that is there is replaced by two renames: for a moment it is in neither place, and then what is beside holds
/// it. Whatever is in its place is a whole pack.
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
                    assert!(text.ends_with("\n") && !text.is_empty(), "kill {at}: {}", path.display());
                }
                let page = fs::read_to_string(place.join("pack.html")).unwrap_or_default();
                let text = fs::read_to_string(place.join("pack.md")).unwrap_or_default();
                let dated = |text: &str| days.iter().position(|date| text.contains(date));
                assert_eq!(dated(&page), dated(&text), "kill {at}: the pages are of two packs");
            },
        );
    }
}
