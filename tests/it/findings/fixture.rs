//! Fixtures: a clean survey and a tiny library, and for each case the text that makes one fault in them, with the
//! findings it must cause beside it.
//!
//! `== TITLE` begins a case; `@ FILE` turns to a file of the library (or back to `base.yaml`); `- TEXT` is text that
//! must stand exactly once in the file and `+ TEXT` what takes its place; `~ LEVEL CODE ABOUT; …` what must be found, and
//! `| TEXT` words that one finding must have.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The survey that every case starts from.
pub(crate) const BASE: &str = "base.yaml";

/// Level, code and what it is about.
pub(crate) type Expected = (String, String, String);

/// A case of a fixture file.
#[derive(Debug, Default)]
pub(crate) struct Case {
    /// File and title.
    pub(crate) title: String,
    /// The files that differ from the clean ones, and the others.
    pub(crate) files: BTreeMap<String, String>,
    /// What must be found, in order.
    pub(crate) expected: Vec<Expected>,
    /// Words that one finding must have.
    pub(crate) says: Vec<String>,
}

/// The folder of the fixtures.
fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/findings")
}

/// The clean files: the survey, and the library's by their path below it.
pub(crate) fn clean() -> BTreeMap<String, String> {
    let mut files = BTreeMap::from([(BASE.to_string(), read(&folder().join(BASE)))]);
    let library = folder().join("library");
    for kind in ["panels", "boards", "devices", "cables", "rules", "notes/cove-4"] {
        for path in listed(&library.join(kind)) {
            let name = path.file_name().expect("a file").to_string_lossy().into_owned();
            files.insert(format!("{kind}/{name}"), read(&path));
        }
    }
    files
}

/// Every case of every fixture file, in order.
pub(crate) fn cases() -> Vec<Case> {
    let clean = clean();
    let files = listed(&folder()).into_iter().filter(|p| p.extension().is_some_and(|e| e == "txt"));
    files.flat_map(|path| read_cases(&path, &clean)).collect()
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

fn listed(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> =
        fs::read_dir(folder).expect("the folder").map(|entry| entry.expect("an entry").path()).collect();
    paths.sort();
    paths
}

/// A change that is being read.
#[derive(Default)]
struct Change {
    old: Vec<String>,
    new: Vec<String>,
}

fn read_cases(path: &Path, clean: &BTreeMap<String, String>) -> Vec<Case> {
    let stem = path.file_stem().expect("a stem").to_string_lossy();
    let mut cases: Vec<Case> = Vec::new();
    let mut target = BASE.to_string();
    let mut change = Change::default();
    for line in read(path).lines() {
        let (sign, rest) = line.split_at_checked(1).unwrap_or((line, ""));
        let rest = rest.strip_prefix(' ').unwrap_or(rest);
        if sign != "+" && !(sign == "-" && change.new.is_empty()) {
            apply(cases.last_mut(), &target, &mut change);
        }
        match sign {
            "=" => {
                let title = format!("{stem}: {}", rest.trim_start_matches(['=', ' ']));
                cases.push(Case { title, files: clean.clone(), ..Case::default() });
                target = BASE.to_string();
            }
            "@" => target = rest.to_string(),
            "-" => {
                if !change.new.is_empty() {
                    apply(cases.last_mut(), &target, &mut change);
                }
                change.old.push(rest.to_string());
            }
            "+" => change.new.push(rest.to_string()),
            "~" => cases.last_mut().expect("a case").expected.extend(rest.split("; ").map(expected)),
            "|" => cases.last_mut().expect("a case").says.push(rest.to_string()),
            "" => {}
            _ => panic!("{}: what is `{line}`?", path.display()),
        }
    }
    apply(cases.last_mut(), &target, &mut change);
    cases
}

/// Makes a change that has been read.
fn apply(case: Option<&mut Case>, target: &str, change: &mut Change) {
    let Change { old, new } = std::mem::take(change);
    if old.is_empty() {
        return;
    }
    let case = case.expect("a case");
    let (old, new) = (old.join("\n"), new.join("\n"));
    let text = case.files.get_mut(target).unwrap_or_else(|| panic!("{}: no file {target}", case.title));
    assert_eq!(text.matches(&old).count(), 1, "{}: `{old}` in {target}", case.title);
    *text = text.replace(&old, &new);
}

fn expected(text: &str) -> Expected {
    let mut words = text.splitn(3, ' ').map(str::to_string);
    let mut next = || words.next().unwrap_or_else(|| panic!("`{text}` is no level, code and about"));
    (next(), next(), next())
}
