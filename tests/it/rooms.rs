//! The rooms of the crate keep to themselves: each uses only the rooms and the outside crates of this table, which is
//! that of DEVELOPERS.md. An arrow that is not in it makes the program harder to follow, so it fails here, with its
//! file and line.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A room, the rooms it may use, and the outside crates it may use.
type Room = (&'static str, &'static [&'static str], &'static [&'static str]);

const ROOMS: [Room; 23] = [
    ("units", &[], &["serde"]),
    ("wording", &[], &["strsim"]),
    ("diagnostics", &[], &["serde_json"]),
    // What the library as a whole does not know; it knows cards and jobs, not plans.
    ("gaps", &["model", "wording"], &["jiff"]),
    // Alone looks for what must not be shared.
    ("guard", &[], &["exif", "regex"]),
    // Alone reads YAML and disk.
    ("source", &["diagnostics"], &["calamine", "csv", "encoding_rs", "include_dir", "serde", "serde_yaml", "zip"]),
    (
        "check",
        &["diagnostics", "guard", "model", "source", "units", "wording"],
        &["jiff", "pulldown_cmark", "serde_json"],
    ),
    ("model", &["units"], &["jiff", "serde"]),
    // Makes a new card of a table; what a value must look like is the check's to say.
    ("draft", &["check", "edit", "model", "source", "units", "wording"], &[]),
    // Alone changes what a file says, by the places of its tree and the table of keys.
    ("edit", &["check", "diagnostics", "source", "wording"], &["similar"]),
    ("formula", &["units"], &[]),
    ("choose", &["model", "units"], &["smallvec"]),
    ("land", &["choose", "formula", "model", "units"], &[]),
    ("work", &["formula", "land", "model", "units"], &["jiff"]),
    ("judge", &["land", "model", "units", "wording", "work"], &[]),
    (
        "pack",
        &["choose", "formula", "gaps", "judge", "land", "model", "units", "wording", "work"],
        &["jiff", "serde", "serde_json"],
    ),
    // Alone places and routes. It knows what is connected to what, not why.
    ("draw", &["pack", "wording"], &[]),
    // Alone writes pages. It knows what pages show, not what a job is.
    (
        "render",
        &["draw", "pack", "pocket", "wording"],
        &["base64", "include_dir", "pulldown_cmark", "rust_xlsxwriter", "serde", "serde_json", "sha2", "tera"],
    ),
    // Alone searches. It knows cards, not plans.
    ("search", &["model", "units", "wording"], &["frostem", "serde_json", "tantivy"]),
    // The library for a page that has nothing else: it knows what search indexes, not what a page looks like.
    ("pocket", &["formula", "land", "model", "pack", "search", "units", "wording", "work"], &["serde_json"]),
    // Alone keeps things between two runs. It knows files, not what they say.
    ("store", &[], &["blake3", "crc32fast", "postcard", "rustix", "serde", "tempfile"]),
    (
        "cli",
        &[
            "check",
            "choose",
            "diagnostics",
            "draft",
            "edit",
            "formula",
            "gaps",
            "guard",
            "judge",
            "land",
            "model",
            "pack",
            "pocket",
            "render",
            "search",
            "source",
            "store",
            "units",
            "wording",
            "work",
        ],
        &["anstyle", "clap", "crossterm", "jiff", "rayon", "serde_json", "signal_hook", "tempfile", "textwrap"],
    ),
    ("main", &["cli"], &["mimalloc"]),
];

/// A word that only some rooms may use, and why.
const WORDS: [(&[&str], &[&str], &str); 8] = [
    (&["print!", "println!", "eprint!", "eprintln!", "dbg!"], &["cli"], "printing is the command line's"),
    (&["HashMap", "HashSet"], &[], "hash order differs from run to run"),
    (
        &["Deserialize"],
        &["model", "pack", "source", "store", "units"],
        "one reader keeps every place; what else is read was written by us: cards kept as bytes, rows of an index",
    ),
    (
        &["Serialize"],
        &["model", "pack", "render", "store", "units"],
        "only pages, pack.json and what is kept are written",
    ),
    (&["std::fs"], &["source", "store", "cli"], "the inside can't fail for outside reasons"),
    (&["std::process", "std::env"], &["cli", "main"], "the outside is the command line's"),
    (&["std::thread"], &["store", "cli"], "only the outside waits: for files and for work"),
    (
        &["SystemTime", "Instant::now", "Zoned::now", "ZonedDateTime::now", "Timestamp::now"],
        &["cli"],
        "the same input gives the same bytes on any day",
    ),
];

/// A word that one room must not use, and why.
const NEVER: [(&str, &[&str], &str); 2] = [
    ("choose", &["f32", "f64"], "the optimum is found in integers"),
    ("judge", &["f32"], "a figure has one precision"),
];

/// A file that may use one word of [`WORDS`] all the same, and why it does no harm there.
const SAVE: [(&str, &str, &str); 1] =
    [("search/cutter.rs", "HashMap", "what was cut is looked up and never gone through")];

/// The source files with the room of each.
fn files() -> Vec<(String, PathBuf)> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut out = Vec::new();
    for path in below(&src) {
        let inner = path.strip_prefix(&src).expect("below src");
        let room = inner.components().next().expect("a name").as_os_str().to_string_lossy().replace(".rs", "");
        if room != "lib" {
            out.push((room, path));
        }
    }
    out
}

fn below(dir: &Path) -> Vec<PathBuf> {
    let mut out = Vec::new();
    for entry in fs::read_dir(dir).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            out.extend(below(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            out.push(path);
        }
    }
    out.sort();
    out
}

/// The outside crates of Cargo.toml, as code spells them.
fn outside() -> BTreeSet<String> {
    let manifest = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml")).expect("a manifest");
    let tables = manifest.split("\n[").filter(|table| table.starts_with("dependencies]"));
    let lines = tables.flat_map(|table| table.lines().skip(1));
    let names = lines.filter_map(|line| line.split_once('=')).map(|(name, _)| name.trim().replace('-', "_"));
    names.filter(|name| !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || c == '_')).collect()
}

/// A line without its comment. Quotes are not looked at: a `//` within one hides no path.
fn code(line: &str) -> &str {
    line.split("//").next().unwrap_or_default()
}

/// The rooms that a line of code names: `crate::room`, `wirelore::room`, `use crate::{a, b::c}`.
fn rooms_in(line: &str) -> Vec<String> {
    let mut out = Vec::new();
    for start in ["crate::", "wirelore::"] {
        for (at, _) in line.match_indices(start) {
            let rest = &line[at + start.len()..];
            match rest.strip_prefix('{') {
                Some(group) => out.extend(heads(group)),
                None => out.push(word(rest)),
            }
        }
    }
    out
}

/// The first word of each entry of a group `a::b, c::{d, e}}`.
fn heads(group: &str) -> Vec<String> {
    let mut depth = 0;
    let mut out = vec![word(group)];
    for (at, c) in group.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => out.push(word(group[at + 1..].trim_start())),
            _ => {}
        }
    }
    out
}

fn word(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// Whether `line` has `name` as a word of its own.
fn has(line: &str, name: &str) -> bool {
    let part = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
    line.match_indices(name).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + name.len()..].chars().next();
        !part(before) && !part(after)
    })
}

/// Whether `line` has a path that begins with the crate `name`.
fn names_crate(line: &str, name: &str) -> bool {
    let own = |before: Option<char>| !before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '_' | ':'));
    let head = format!("{name}::");
    line.match_indices(&head).any(|(at, _)| own(line[..at].chars().next_back())) || has(line, &format!("use {name}"))
}

/// What is wrong with a room's text.
fn wrong(room: &str, text: &str, outside: &BTreeSet<String>) -> Vec<String> {
    let Some((_, rooms, crates)) = ROOMS.iter().find(|(name, ..)| *name == room) else {
        return vec![format!("the room `{room}` is not in the table")];
    };
    let known: Vec<&str> = ROOMS.iter().map(|(name, ..)| *name).collect();
    let joined = join_uses(text);
    let mut out = Vec::new();
    for (line, code) in &joined {
        let named = rooms_in(code).into_iter().filter(|r| known.contains(&r.as_str()) && r != room);
        out.extend(named.filter(|r| !rooms.contains(&r.as_str())).map(|r| format!("{line}: `{room}` uses `{r}`")));
        let named = outside.iter().filter(|name| names_crate(code, name));
        let foreign = named.filter(|name| !crates.contains(&name.as_str()));
        out.extend(foreign.map(|name| format!("{line}: `{room}` uses the crate `{name}`")));
        for (words, allowed, why) in WORDS {
            let used = words.iter().filter(|word| has(code, word) && !allowed.contains(&room));
            out.extend(used.map(|word| format!("{line}: `{room}` uses `{word}`: {why}")));
        }
        for (_, words, why) in NEVER.iter().filter(|(name, ..)| *name == room) {
            let used = words.iter().filter(|word| has(code, word));
            out.extend(used.map(|word| format!("{line}: `{room}` uses `{word}`: {why}")));
        }
    }
    out
}

/// The lines with their numbers, comments cut, and a `use` of several lines as one.
fn join_uses(text: &str) -> Vec<(usize, String)> {
    let mut out: Vec<(usize, String)> = Vec::new();
    let mut open = false;
    for (at, line) in text.lines().enumerate() {
        let line = code(line);
        match out.last_mut() {
            Some((_, last)) if open => last.push_str(line.trim()),
            _ => out.push((at + 1, line.to_owned())),
        }
        let last = out.last().map(|(_, last)| last.trim_start()).unwrap_or_default();
        open = (last.starts_with("use ") || last.starts_with("pub use ")) && !last.contains(';');
    }
    out
}

#[test]
fn every_arrow_is_in_the_table() {
    let outside = outside();
    assert!(outside.contains("serde_yaml") && outside.contains("tera"), "{outside:?}");
    let mut found = Vec::new();
    for (room, path) in files() {
        let text = fs::read_to_string(&path).expect("a source file");
        let is_saved = |line: &String| {
            SAVE.iter().any(|(file, word, _)| path.ends_with(file) && line.contains(&format!("uses `{word}`")))
        };
        let lines = wrong(&room, &text, &outside).into_iter().filter(|line| !is_saved(line));
        found.extend(lines.map(|line| format!("{}:{line}", path.display())));
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn every_room_of_the_table_is_there_and_no_arrow_runs_in_a_circle() {
    let there: BTreeSet<String> = files().into_iter().map(|(room, _)| room).collect();
    let table: BTreeMap<&str, &[&str]> = ROOMS.iter().map(|(name, rooms, _)| (*name, *rooms)).collect();
    assert_eq!(there.iter().map(String::as_str).collect::<Vec<_>>(), table.keys().copied().collect::<Vec<_>>());
    for start in table.keys() {
        let mut ahead = table[start].to_vec();
        let mut seen = BTreeSet::new();
        while let Some(room) = ahead.pop() {
            assert_ne!(room, *start, "`{start}` comes back to itself");
            if seen.insert(room) {
                ahead.extend(table[room]);
            }
        }
    }
}

#[test]
fn a_forbidden_arrow_is_seen() {
    let outside = outside();
    let seen = |room: &str, text: &str| wrong(room, text, &outside).len();
    assert_eq!(seen("search", "use crate::model::Library;\n// use crate::pack::View;"), 0);
    assert_eq!(seen("search", "use crate::pack::View;"), 1);
    assert_eq!(seen("search", "use crate::{\n    model::Library,\n    pack::{View, Page},\n};"), 1);
    assert_eq!(seen("pack", "fn f() { crate::render::pack(); }"), 1);
    assert_eq!(seen("model", "use tera::Tera;"), 1);
    assert_eq!(seen("model", "let x = serde_yaml::from_str(y);"), 1);
    assert_eq!(seen("model", "println!(\"x\");"), 1);
    assert_eq!(seen("choose", "fn f(x: f64) {}"), 1);
    assert_eq!(seen("choose", "use std::collections::HashMap;"), 1);
    assert_eq!(seen("work", "let now = std::time::Instant::now();"), 1);
    assert_eq!(seen("main", "wirelore::cli::run(args)"), 0);
    assert_eq!(seen("main", "wirelore::check::library(files)"), 1);
    assert_eq!(seen("attic", "fn f() {}"), 1);
}

/// Whoever brings in a crate says why, in the table of DEVELOPERS.md.
#[test]
fn every_dependency_is_explained() {
    let read = |name: &str| fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).expect("a file");
    let developers = read("DEVELOPERS.md");
    let (_, table) = developers.split_once("\n## Dependencies").expect("its section");
    let named = read("Cargo.toml");
    let sections = ["[dependencies]\n", "[dev-dependencies]\n"].map(|head| named.split_once(head).expect(head).1);
    let lines = sections.iter().flat_map(|section| section.lines().take_while(|line| !line.starts_with('[')));
    let crates: Vec<&str> = lines.filter_map(|line| line.split_once(" = ").map(|(name, _)| name)).collect();
    assert!(crates.len() > 30, "{crates:?}");
    let untold: Vec<&&str> = crates.iter().filter(|name| !table.contains(&format!("`{name}`"))).collect();
    assert!(untold.is_empty(), "DEVELOPERS.md does not say why these are here: {untold:?}");
}
