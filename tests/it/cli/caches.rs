//! What is kept between two runs changes no answer: whatever happens to the library or to the cache folder, the answer is
//! that of a run that keeps nothing.

use super::run::{Ran, files, folder, library, program, ran};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;
use tempfile::TempDir;

/// What is asked after each change.
const QUESTIONS: [&[&str]; 4] = [
    &["STB", "--limit", "40", "--json"],
    &["hold-off", "fuse", "strobe", "trigger", "zebra", "--limit", "30", "--json"],
    &["LK2", "--card", "merrowby-mb6"],
    &["STBB", "--kind", "note"],
];

/// A library and a cache folder of its own.
struct Desk {
    _dir: TempDir,
    library: PathBuf,
    cache: PathBuf,
}

impl Desk {
    fn new() -> Self {
        let (dir, library) = library();
        let cache = dir.path().join("cache");
        Self { _dir: dir, library, cache }
    }

    fn command(&self, words: &[&str]) -> Command {
        let mut command = program(&self.library);
        command.env("XDG_CACHE_HOME", &self.cache).arg("--library").arg(&self.library).arg("find").args(words);
        command
    }

    fn ask(&self, words: &[&str]) -> Ran {
        ran(&self.command(words).output().expect("the program starts"))
    }

    /// Asks everything with and without the cache.
    #[track_caller]
    fn same(&self, after: &str) {
        for words in QUESTIONS {
            let kept = self.ask(words);
            let anew = self.ask(&[words, &["--no-cache"]].concat());
            assert_eq!((kept.code, &kept.out, &kept.err), (anew.code, &anew.out, &anew.err), "{after}: {words:?}");
        }
    }

    fn write(&self, path: &str, text: &str) {
        let path = self.library.join(path);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder is made");
        fs::write(path, text).expect("a file is written");
    }

    fn read(&self, path: &str) -> String {
        fs::read_to_string(self.library.join(path)).expect("a file is read")
    }

    fn replace(&self, path: &str, from: &str, to: &str) {
        let text = self.read(path);
        assert!(text.contains(from), "{path}: {from}");
        self.write(path, &text.replace(from, to));
    }

    fn remove(&self, path: &str) {
        let path = self.library.join(path);
        if path.is_dir() { fs::remove_dir_all(path) } else { fs::remove_file(path) }.expect("it goes");
    }

    /// The folder where the library's index is kept.
    fn place(&self) -> PathBuf {
        let all = self.cache.join("wirelore");
        let mut names = fs::read_dir(all).expect("a cache folder").filter_map(Result::ok);
        names.find(|entry| entry.file_name().to_string_lossy().starts_with("library-")).expect("a place").path()
    }

    /// The state and the large files: not the lock.
    fn kept(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let mut kept = files(&self.place());
        kept.retain(|(path, _)| path != Path::new("lock"));
        kept
    }
}

const MB6: &str = "panels/merrowby-mb6.yaml";
const NOTE: &str = "notes/merrowby-mb6/2026-11-20-the-strobe.md";

#[test]
fn a_changed_library_is_answered_for_as_it_is_now() {
    let desk = Desk::new();
    desk.same("at first");
    desk.replace(MB6, "Strobe trigger", "Zebra lamp trigger");
    desk.same("a card written again");
    desk.replace(MB6, "Zebra lamp trigger", "Zebra lamp trigger and more");
    desk.same("the same card once more");
    let copy = desk.read(MB6).replace("merrowby-mb6", "merrowby-mb7").replace("model: MB6", "model: MB7");
    desk.write("panels/merrowby-mb7.yaml", &copy);
    desk.same("a card that came");
    desk.write(NOTE, "---\nabout: STB\ndate: 2026-11-20\nby: KM\n---\nThe strobe zebra blinks twice.\n");
    desk.same("a note that came");
    desk.replace(NOTE, "blinks twice", "blinks three times");
    desk.same("a note written again");
    desk.remove(NOTE);
    desk.same("a note that went");
    desk.remove("notes/quillace-q4");
    desk.same("all notes of a card that went");
    desk.remove("panels/merrowby-mb7.yaml");
    desk.same("a card that went");
    desk.replace("terms.yaml", "[strobe, stb,", "[strobe, zebra, stb,");
    desk.same("another ring");
    desk.replace("rules/en-50131.yaml", "ageing: 1.25", "ageing: 1.3");
    desk.same("other rules");
    desk.remove("boards");
    desk.same("a whole folder that went");
}

#[test]
fn faults_are_told_of_as_without_a_cache() {
    let desk = Desk::new();
    desk.same("at first");
    desk.replace(MB6, "model: MB6", "modell: MB6");
    desk.same("a card with a fault");
    assert!(desk.ask(&["STB"]).err.contains("1 fault"));
    desk.replace("panels/quillace-q4.yaml", "id: quillace-q4", "id: quillace-q8s");
    desk.same("a card with another's id");
    desk.replace(MB6, "modell: MB6", "model: MB6");
    desk.same("one fault mended");
    desk.replace("panels/quillace-q4.yaml", "id: quillace-q8s", "id: quillace-q4");
    desk.same("all mended");
    assert!(desk.ask(&["STB"]).err.is_empty());
    desk.write("boards/merrowby-mb6.yaml", &desk.read(MB6));
    desk.same("two cards of one id");
    desk.remove("boards/merrowby-mb6.yaml");
    desk.write("notes/nobody/2026-11-20-x.md", "---\ndate: 2026-11-20\n---\nOf no card.\n");
    desk.same("a note of no card");
    desk.remove("notes/nobody");
    desk.write("panels/old.yml", "kind: panel\n");
    desk.same("a file with another ending");
    desk.remove("panels/old.yml");
    desk.write("panels/old/merrowby-mb6.yaml", "kind: panel\n");
    desk.same("a card in a folder within");
    desk.write("panels/old/another.yaml", "kind: panel\n");
    desk.remove("panels/old/merrowby-mb6.yaml");
    desk.same("another card in that folder");
    desk.remove("panels/old");
    desk.same("that folder gone");
    desk.remove("supplies");
    desk.write("supplies", "a file");
    desk.same("a file where a folder is due");
}

#[test]
fn a_card_shown_is_never_old_even_when_nothing_else_is_looked_at() {
    let desk = Desk::new();
    desk.ask(&["STB"]).ends(0);
    desk.replace(MB6, "Strobe trigger", "Zebra lamp trigger");
    let hits = desk.ask(&["STB", "--no-fresh", "--json", "--card", "merrowby-mb6"]).ends(0);
    assert!(hits.out.contains("Zebra lamp trigger") && !hits.out.contains("Strobe trigger"), "{hits:?}");
    desk.write(NOTE, "---\nabout: STB\ndate: 2026-11-20\nby: KM\n---\nA note of today.\n");
    let hits = desk.ask(&["STB", "--no-fresh", "--json", "--card", "merrowby-mb6"]).ends(0);
    assert!(hits.out.contains("A note of today"), "{hits:?}");
}

#[test]
fn a_change_that_leaves_size_and_time_as_they_were_is_seen() {
    let desk = Desk::new();
    let card = desk.library.join(MB6);
    let long_ago = std::time::SystemTime::UNIX_EPOCH + Duration::from_secs(1_700_000_000);
    let set = || {
        let file = fs::File::options().write(true).open(&card).expect("a card");
        file.set_modified(long_ago).expect("a time is set");
    };
    set();
    desk.ask(&["STB"]).ends(0);
    desk.replace(MB6, "Strobe trigger", "Zebra trigger!");
    set();
    desk.same("the same size and time");
    assert!(desk.ask(&["STB", "--card", "merrowby-mb6"]).out.contains("Zebra trigger!"));
}

#[test]
fn what_was_kept_is_used_and_not_written_again() {
    let desk = Desk::new();
    desk.ask(&["STB"]).ends(0);
    // What was written a moment ago is looked at again, and then believed.
    std::thread::sleep(Duration::from_secs(4));
    desk.ask(&["STB"]).ends(0);
    let kept = desk.kept();
    desk.ask(&["hold-off"]).ends(0);
    assert!(kept == desk.kept(), "a question alone writes nothing");
    let card = fs::File::options().append(true).open(desk.library.join(MB6)).expect("a card");
    card.set_modified(std::time::SystemTime::UNIX_EPOCH).expect("a time is set");
    desk.ask(&["STB"]).ends(0);
    let large = |kept: &[(PathBuf, Vec<u8>)]| kept.iter().filter(|(path, _)| path != Path::new("state")).count();
    assert_eq!(large(&kept), large(&desk.kept()), "a file that was only touched changes no index");
}

#[test]
fn damage_is_seen_and_mended() {
    let desk = Desk::new();
    desk.same("at first");
    let whole = desk.kept();
    assert!(whole.len() > 4, "{}", whole.len());
    let question = ["strobe", "trigger", "--json"];
    let right = desk.ask(&[&question[..], &["--no-cache"]].concat()).ends(0);
    for (path, bytes) in &whole {
        let on_disk = desk.place().join(path);
        let middle = bytes.len() / 2;
        for damaged in [Vec::new(), bytes[..middle].to_vec(), flipped(bytes, middle), flipped(bytes, bytes.len() - 1)] {
            for (path, bytes) in &whole {
                fs::write(desk.place().join(path), bytes).expect("a file is written");
            }
            fs::write(&on_disk, damaged).expect("a file is damaged");
            let asked = desk.ask(&question).ends(0);
            assert_eq!((&asked.out, &asked.err), (&right.out, &right.err), "{}", path.display());
        }
        for (path, bytes) in &whole {
            fs::write(desk.place().join(path), bytes).expect("a file is written");
        }
        fs::remove_file(&on_disk).expect("a file goes");
        assert_eq!(desk.ask(&question).ends(0).out, right.out, "{}", path.display());
    }
    desk.same("at last");
}

fn flipped(bytes: &[u8], at: usize) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    bytes[at] ^= 0x55;
    bytes
}

#[test]
fn where_nothing_can_be_kept_the_answer_is_the_same() {
    let desk = Desk::new();
    fs::write(&desk.cache, "a file where the cache folder is due").expect("a file");
    desk.same("no cache folder");
    let none = ran(&desk.command(&["STB"]).env_remove("XDG_CACHE_HOME").env_remove("HOME").output().expect("starts"));
    let relative =
        ran(&desk.command(&["STB"]).env("XDG_CACHE_HOME", "here").env_remove("HOME").output().expect("starts"));
    assert_eq!((none.out, none.err), (relative.out, relative.err));
    assert!(!desk.library.join("here").exists());
}

#[test]
fn no_cache_writes_nothing() {
    let desk = Desk::new();
    desk.ask(&["STB", "--no-cache"]).ends(0);
    assert!(!desk.cache.exists());
}

#[test]
fn another_process_that_writes_is_not_waited_for() {
    let desk = Desk::new();
    desk.ask(&["STB"]).ends(0);
    let lock = fs::File::options().write(true).open(desk.place().join("lock")).expect("a lock");
    lock.lock().expect("it is free");
    let kept = desk.kept();
    desk.replace(MB6, "Strobe trigger", "Zebra lamp trigger");
    desk.same("while another process writes");
    assert!(kept == desk.kept(), "nothing is written while another process does");
}

#[test]
fn many_at_once_all_get_the_right_answer() {
    let desk = Desk::new();
    for round in 0..4 {
        desk.replace(MB6, "Strobe trigger", "Strobe trigger!");
        let right = desk.ask(&["STB", "--json", "--no-cache"]).ends(0);
        let start = || desk.command(&["STB", "--json"]).stdout(Stdio::piped()).spawn().expect("the program starts");
        let running: Vec<_> = (0..6).map(|_| start()).collect();
        for process in running {
            let done = ran(&process.wait_with_output().expect("it ends")).ends(0);
            assert_eq!(done.out, right.out, "round {round}");
        }
    }
}

/// How often a process is killed: `WIRELORE_KILLS`, else a few times.
fn kills() -> u32 {
    std::env::var("WIRELORE_KILLS").ok().and_then(|count| count.parse().ok()).unwrap_or(12)
}

#[test]
fn a_process_killed_while_it_writes_leaves_the_next_answer_right() {
    let desk = Desk::new();
    let marks = ["Strobe trigger", "Zebra lamp trigger"];
    for kill in 0..kills() {
        let (from, to) = if kill % 2 == 0 { (marks[0], marks[1]) } else { (marks[1], marks[0]) };
        desk.replace(MB6, from, to);
        if kill % 5 == 4 {
            // A whole index is to be written, not one card.
            fs::remove_dir_all(&desk.cache).expect("a cache goes");
        }
        let mut process = desk.command(&["STB"]).stdout(Stdio::null()).spawn().expect("the program starts");
        // Any moment of its work: the figures are only spread, not random, so that a failure comes again.
        std::thread::sleep(Duration::from_micros(u64::from(kill) * 7919 % 60_000));
        let _ = process.kill();
        process.wait().expect("it ends");
        let asked = desk.ask(&["STB", "--json", "--limit", "30"]).ends(0);
        let anew = desk.ask(&["STB", "--json", "--limit", "30", "--no-cache"]).ends(0);
        assert_eq!((asked.out, asked.err), (anew.out, anew.err), "after kill {kill}");
    }
}

#[test]
fn the_demo_library_is_kept_too() {
    let dir = folder();
    let ask = |more: &[&str]| {
        let mut command = program(dir.path());
        ran(&command.env("XDG_CACHE_HOME", dir.path()).args(["find", "hold-off"]).args(more).output().expect("starts"))
    };
    let first = ask(&[]).ends(0);
    assert!(dir.path().join("wirelore/demo/state").is_file());
    let second = ask(&[]).ends(0);
    let anew = ask(&["--no-cache"]).ends(0);
    assert_eq!((&first.out, &first.err), (&second.out, &second.err));
    assert_eq!((&first.out, &first.err), (&anew.out, &anew.err));
}

#[test]
fn check_tells_of_a_library_as_it_is_now() {
    let desk = Desk::new();
    let check = |more: &[&str]| {
        let mut command = program(&desk.library);
        command.env("XDG_CACHE_HOME", &desk.cache).arg("--library").arg(&desk.library).arg("check").args(more);
        ran(&command.output().expect("the program starts"))
    };
    let same = |after: &str| {
        for form in [&[][..], &["--json"]] {
            let (kept, anew) = (check(form), check(&[form, &["--no-cache"]].concat()));
            assert_eq!((kept.code, &kept.out, &kept.err), (anew.code, &anew.out, &anew.err), "{after}: {form:?}");
        }
    };
    same("at first");
    assert!(desk.place().join("told").is_file());
    desk.replace("surveys/lantern-bakery.yaml", "panel: merrowby-mb6", "panel: merrowby-mb66");
    same("a survey with a fault");
    desk.replace(MB6, "model: MB6", "modell: MB6");
    same("a card with a fault too");
    desk.replace("surveys/lantern-bakery.yaml", "panel: merrowby-mb66", "panel: merrowby-mb6");
    desk.replace(MB6, "modell: MB6", "model: MB6");
    same("all mended");
    desk.write(NOTE, "---\nabout: STB\ndate: 2026-11-20\nby: KM\n---\nAt Lantern Bakery the strobe blinks twice.\n");
    same("a note that names a site");
    desk.remove("surveys/lantern-bakery.yaml");
    same("the site's survey gone");
    fs::write(desk.place().join("told"), "damaged").expect("a file is damaged");
    same("what was kept damaged");
}
