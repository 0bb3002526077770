//! Many packs: parts of them on several machines, one index over all, the cards that were read once, `--watch`.

use super::run::{Ran, folder, library, names, pack_names, packs, program, run};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

fn pack(dir: &Path, more: &[&str]) -> Ran {
    let args: Vec<&str> =
        ["--library", "library", "pack", "library/surveys"].into_iter().chain(more.to_vec()).collect();
    run(dir, &args)
}

/// The ids of the packs in a folder.
fn ids(out: &Path) -> BTreeSet<String> {
    pack_names(out).into_iter().collect()
}

#[test]
fn parts_are_the_whole_and_their_indexes_make_one() {
    let (dir, _library) = library();
    pack(dir.path(), &["-o", "all"]).ends(0);
    let mut found = BTreeSet::new();
    for part in ["1/3", "2/3", "3/3"] {
        let out = format!("part-{}", &part[..1]);
        pack(dir.path(), &["-o", &out, "--shard", part]).ends(0);
        for id in ids(&dir.path().join(&out)) {
            assert!(packs(&dir.path().join(&out).join(&id)) == packs(&dir.path().join("all").join(&id)), "{id}");
            assert!(found.insert(id), "in two parts");
        }
    }
    assert_eq!(found, ids(&dir.path().join("all")));
    let ran = run(dir.path(), &["index", "part-1", "part-2", "part-3", "-o", "whole"]).ends(0);
    assert!(ran.out.starts_with("11 packs of 3 folders: 6 ready, 5 not."), "{ran:?}");
    let page = fs::read_to_string(dir.path().join("whole/index.html")).expect("an index");
    for part in ["part-1", "part-2", "part-3"] {
        for id in ids(&dir.path().join(part)) {
            assert!(page.contains(&format!("href=\"../{part}/{id}/pack.html\"")), "{part} {id}");
        }
    }
    // The same rows as those of one folder, but for where the packs lie.
    let json = |place: &str| -> serde_json::Value {
        let text = fs::read(dir.path().join(place).join("index.json")).expect("an index");
        serde_json::from_slice(&text).expect("JSON")
    };
    let mut merged = json("whole");
    for row in merged["packs"].as_array_mut().expect("rows") {
        row.as_object_mut().expect("a row").shift_remove("folder");
    }
    assert_eq!(merged, json("all"));
    // An index of indexes.
    run(dir.path(), &["index", "whole", "-o", "deeper/still"]).ends(0);
    let page = fs::read_to_string(dir.path().join("deeper/still/index.html")).expect("an index");
    let (start, _) = page.match_indices("href=\"../../whole/../part-").next().expect("a way");
    let way = page[start + 6..].split('"').next().expect("a way");
    assert!(dir.path().join("deeper/still").join(way).is_file(), "{way}");
}

#[test]
fn what_is_no_index_is_told_with_its_place_and_nothing_is_written() {
    let dir = folder();
    run(dir.path(), &["pack", "lantern-bakery", "-o", "a"]).ends(0);
    run(dir.path(), &["pack", "lantern-bakery", "-o", "b"]).ends(0);
    let ran = run(dir.path(), &["index", "a", "nosuch", "-o", "all"]).ends(2);
    assert!(ran.err.contains("can't read nosuch/index.json") && !dir.path().join("all").exists(), "{ran:?}");
    let ran = run(dir.path(), &["index", "a", "-o", "a"]).ends(2);
    assert!(ran.err.contains("name another folder with -o"), "{ran:?}");
    let ran = run(dir.path(), &["index", "a", "b", "-o", "all"]).ends(1);
    assert!(ran.err.contains("the pack lantern-bakery is in ../a and in ../b: remove all but one"), "{ran:?}");
    fs::write(dir.path().join("b/index.json"), "{\"packs\":[\n{\"survey\":1}]}").expect("written");
    let ran = run(dir.path(), &["index", "a", "b", "-o", "none"]).ends(1);
    assert!(ran.err.contains("b/index.json:2:11: this is no index of packs"), "{ran:?}");
    assert!(!dir.path().join("none").exists());
    for nonsense in ["0/3", "4/3", "x"] {
        let ran = run(dir.path(), &["pack", "lantern-bakery", "--shard", nonsense]).ends(2);
        assert!(ran.err.contains("K/N"), "{ran:?}");
    }
}

#[test]
fn quiet_says_only_what_went_wrong() {
    let (dir, library) = library();
    let ran = pack(dir.path(), &["--quiet"]).ends(0);
    assert!(ran.out.is_empty() && ran.err.is_empty(), "{ran:?}");
    fs::write(library.join("surveys/bad.yaml"), "survey: bad\n").expect("written");
    let ran = pack(dir.path(), &["--quiet"]).ends(1);
    assert!(ran.out.is_empty() && ran.err.contains("bad.yaml"), "{ran:?}");
    pack(dir.path(), &["--quiet", "--strict"]).ends(1);
}

/// What is kept of the cards changes no byte, whatever happens to it.
#[test]
fn cards_that_were_kept_make_the_same_packs() {
    let (dir, library) = library();
    let cache = dir.path().join("cache");
    let pack = |out: &str, more: &[&str]| {
        let mut command = program(dir.path());
        command.env("XDG_CACHE_HOME", &cache).args(["--library", "library", "pack", "library/surveys", "-o", out]);
        assert!(command.args(more).output().is_ok_and(|output| output.status.success()));
        let made = packs(&dir.path().join(out));
        fs::remove_dir_all(dir.path().join(out)).expect("removed");
        made
    };
    let without = pack("a", &["--no-cache"]);
    assert!(!cache.exists(), "nothing is kept that is not to be kept");
    assert!(pack("b", &[]) == without);
    let place = cache.join("wirelore").join(&names(&cache.join("wirelore"))[0]);
    let kept = place.join("cards-new");
    let whole = fs::read(&kept).expect("cards are kept");
    assert!(pack("c", &[]) == without);
    for at in [0, 9, 30, whole.len() / 3, whole.len() / 2, whole.len() - 1] {
        fs::write(&kept, &whole[..at]).expect("cut");
        assert!(pack("d", &[]) == without, "cut at {at}");
        let mut scrambled = whole.clone();
        scrambled[at] ^= 0x20;
        fs::write(&kept, scrambled).expect("scrambled");
        assert!(pack("e", &[]) == without, "scrambled at {at}");
    }
    fs::remove_dir_all(&cache).expect("removed");
    fs::write(&cache, "in the way").expect("written");
    assert!(pack("f", &[]) == without);
    fs::remove_file(&cache).expect("removed");
    // A card that changed is read anew.
    let card = library.join("panels/merrowby-mb6.yaml");
    pack("g", &[]);
    let text = fs::read_to_string(&card).expect("a card").replacen("model: ", "model: New ", 1);
    fs::write(&card, text).expect("written");
    let changed = pack("h", &[]);
    assert!(changed != without && changed == pack("i", &["--no-cache"]));
}

#[test]
#[cfg(unix)]
fn watching_builds_what_changes_until_it_is_asked_to_end() {
    let (dir, library) = library();
    let args = ["--library", "library", "pack", "library/surveys/lantern-bakery.yaml", "--watch"];
    let child =
        program(dir.path()).args(args).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("it starts");
    let pack = dir.path().join("packs/lantern-bakery/pack.md");
    let waits = |what: &dyn Fn() -> bool| {
        let begun = Instant::now();
        while begun.elapsed() < Duration::from_mins(1) {
            if what() {
                return true;
            }
            thread::sleep(Duration::from_millis(20));
        }
        false
    };
    let says = |word: &str| fs::read_to_string(&pack).is_ok_and(|text| text.contains(word));
    assert!(waits(&|| says("Lantern")));
    let card = library.join("surveys/lantern-bakery.yaml");
    let text = fs::read_to_string(&card).expect("a survey");
    fs::write(&card, text.replace("Lantern", "Lanthorn")).expect("written");
    assert!(waits(&|| says("Lanthorn")));
    fs::write(&card, "survey: lantern-bakery\n").expect("written");
    let index = dir.path().join("packs/index.json");
    assert!(waits(&|| fs::read_to_string(&index).is_ok_and(|text| !text.contains("lantern-bakery"))));
    fs::write(&card, text).expect("written");
    assert!(waits(&|| says("Lantern")));
    let asked = Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert!(asked.is_ok_and(|status| status.success()));
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(130));
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(said.matches("no pack, for").count(), 1, "the same fault is told once: {said}");
}

/// The loop of the book, as a shell runs it.
#[test]
#[cfg(unix)]
fn the_books_loop_runs() {
    let (dir, library) = library();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let script = root.join("book/src/many.in/spread.sh");
    let chapter = fs::read_to_string(root.join("book/src/many.md")).expect("a chapter");
    assert!(chapter.contains(&fs::read_to_string(&script).expect("a script")), "the book shows what runs here");
    let program = Path::new(env!("CARGO_BIN_EXE_wirelore")).parent().expect("a folder").to_path_buf();
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths([program].into_iter().chain(std::env::split_paths(&path))).expect("a path");
    let mut shell = Command::new("sh");
    shell.arg(&script).current_dir(dir.path()).env("PATH", path).env("WIRELORE_LIBRARY", &library);
    let output = shell.env("SURVEYS", library.join("surveys")).output().expect("it runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(said.starts_with("11 packs of 4 folders:"), "{said} {}", String::from_utf8_lossy(&output.stderr));
    assert!(dir.path().join("all/index.html").is_file());
}
