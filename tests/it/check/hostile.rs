//! Files that were never meant to be read: each is one clear fault with a place, and nothing panics or hangs.

use super::{drawn, small_library};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};
use wirelore::check;
use wirelore::diagnostics::{Fault, draw, json};
use wirelore::source::{Files, SourceFile};

fn survey_of(bytes: &[u8]) -> SourceFile {
    SourceFile { path: "s.yaml".into(), bytes: Ok(bytes.to_vec()), in_library: false }
}

/// The one fault of a survey with these bytes; a card and a note with them must be refused as well.
fn only_fault(bytes: &[u8]) -> Fault {
    let mut files = small_library();
    files.files.insert("panels/x.yaml".into(), Ok(bytes.to_vec()));
    files.files.insert("notes/merrowby-mb6/2026-01-01-x.md".into(), Ok(bytes.to_vec()));
    let library = check::library(&files);
    for path in ["panels/x.yaml", "notes/merrowby-mb6/2026-01-01-x.md"] {
        assert!(library.faults.iter().any(|fault| fault.file.ends_with(path)), "{path}");
    }
    assert!(library.value.panels.contains_key("merrowby-mb6"), "the other cards are read all the same");
    let checked = check::survey(&library.value, &survey_of(bytes));
    assert!(checked.value.is_none());
    match checked.faults.as_slice() {
        [fault] => fault.clone(),
        faults => panic!("{}", drawn(faults)),
    }
}

/// So many lines.
fn lines(many: usize, line: impl Fn(usize) -> String) -> String {
    (0..many).map(line).collect::<Vec<_>>().join("\n")
}

fn expect(bytes: &[u8], place: (usize, usize), message: &str) {
    let fault = only_fault(bytes);
    assert!(fault.message.contains(message), "{}", fault.message);
    assert_eq!((fault.line, fault.column), place, "{}", draw(&fault, false));
    assert!(!fault.help.is_empty(), "{}", fault.message);
}

#[test]
fn not_utf_8() {
    expect(b"survey: x\nby: K\xff\n", (2, 6), "not UTF-8");
    expect(&[0xff, 0xfe, b'a', 0], (1, 1), "not UTF-8");
}

#[test]
fn nothing_in_it() {
    for text in ["", "\n\n", "# a comment\n", "---\n", "~\n", "\u{feff}"] {
        expect(text.as_bytes(), (1, 1), "this file is empty");
    }
}

#[test]
fn two_documents() {
    expect(b"survey: a\n---\nsurvey: b\n", (2, 1), "two documents");
}

#[test]
fn an_alias_bomb() {
    let mut bomb = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for n in 1..12 {
        let _ = writeln!(bomb, "a{n}: &a{n} [{}]", vec![format!("*a{}", n - 1); 10].join(", "));
    }
    let fault = only_fault(bomb.as_bytes());
    assert!(fault.message.contains("aliases"), "{}", fault.message);
    expect(b"a: &a [*a]\n", (1, 8), "aliases");
    expect(b"a: *b\n", (1, 4), "alias");
}

#[test]
fn twenty_thousand_brackets() {
    let fault = only_fault(format!("a: {}", "[".repeat(20_000)).as_bytes());
    assert!(fault.message.contains("nest too deep"), "{}", fault.message);
    let fault = only_fault(format!("a: {}{}", "[".repeat(20_000), "]".repeat(20_000)).as_bytes());
    assert!(fault.message.contains("nest too deep"), "{}", fault.message);
    let fault = only_fault("{a: ".repeat(20_000).as_bytes());
    assert!(fault.message.contains("nest too deep"), "{}", fault.message);
    let blocks = lines(1000, |depth| format!("{}a:", " ".repeat(depth)));
    assert!(only_fault(blocks.as_bytes()).message.contains("nest too deep"));
    assert!(only_fault("- ".repeat(20_000).as_bytes()).message.contains("nest too deep"));
}

#[test]
fn broken_yaml() {
    expect(b"a: b: c\n", (1, 5), "not YAML");
    expect(b"a: \"x\n", (1, 4), "not YAML");
    expect(b"a: !tag x\n", (1, 9), "tags");
    expect(b"a: \x1b[31m\n", (1, 4), "not YAML");
    expect(b"a: 1\nb: 2\rc: 3\n", (2, 5), "carriage return");
    expect(b"- a\n", (1, 1), "a survey is due here");
    expect(b"word\n", (1, 1), "a survey is due here");
}

#[test]
fn larger_than_a_mebibyte() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("large.yaml");
    fs::write(&path, "# ".repeat(600_000)).expect("a file");
    assert_eq!(message(&path), "this file is larger than 1 MiB");
    let library = check::library(&small_library()).value;
    let checked = check::survey(&library, &SourceFile::read(&path));
    assert_eq!((checked.faults.len(), checked.value.is_none()), (1, true));
}

fn message(path: &Path) -> String {
    SourceFile::read(path).bytes.expect_err("it can't be read").message
}

#[test]
fn a_folder_for_a_file_and_the_reverse() {
    let dir = tempfile::tempdir().expect("a folder");
    fs::create_dir_all(dir.path().join("panels/old.yaml")).expect("a folder");
    fs::write(dir.path().join("boards"), "kind: board").expect("a file");
    fs::write(dir.path().join("panels/new.yml"), "kind: panel").expect("a file");
    fs::write(dir.path().join("panels/photo.jpg"), [0xff]).expect("a file");
    fs::create_dir_all(dir.path().join("devices/photos")).expect("a folder");
    fs::create_dir_all(dir.path().join("devices/ours")).expect("a folder");
    fs::write(dir.path().join("devices/ours/x.yaml"), "kind: device").expect("a file");
    assert_eq!(message(&dir.path().join("panels")), "this is a folder, where a file is due");
    assert!(message(&dir.path().join("none.yaml")).contains("can't be read"));
    let faults = check::library(&Files::from_dir(dir.path())).faults;
    let seen: Vec<(&str, &str)> = faults
        .iter()
        .map(|fault| (fault.file.rsplit_once('/').map_or("", |(_, name)| name), fault.message.as_str()))
        .collect();
    let expected = [
        ("boards", "this is a file, where a folder is due"),
        ("ours", "this folder holds files that are not read"),
        ("new.yml", "this file is not read: its name ends in `.yml`"),
        ("old.yaml", "this is a folder, where a file is due"),
    ];
    assert_eq!(seen, expected);
    for (path, said) in [
        ("devices/photos", "there is no library"),
        ("panels/new.yml", "this is a file"),
        ("nowhere", "there is no such folder"),
    ] {
        let faults = check::library(&Files::from_dir(&dir.path().join(path))).faults;
        assert!(faults.len() == 1 && faults[0].message.contains(said), "{}", drawn(&faults));
    }
}

#[cfg(unix)]
#[test]
fn files_that_are_no_files() {
    let dir = tempfile::tempdir().expect("a folder");
    std::os::unix::fs::symlink(dir.path().join("gone.yaml"), dir.path().join("link.yaml")).expect("a link");
    assert!(message(&dir.path().join("link.yaml")).contains("can't be read"));
    assert_eq!(message(Path::new("/dev/zero")), "this is not an ordinary file");
}

#[test]
fn signs_that_drive_a_terminal_are_not_passed_on() {
    let text = "survey: x\npanel: \"\\e[31mred\\u202e\"\nboard: \"a\\0b\"\n# \u{202e} turned\nby: ~ # \u{202e}\n";
    let library = check::library(&small_library()).value;
    let checked = check::survey(&library, &survey_of(text.as_bytes()));
    assert_eq!(checked.faults.len(), 5, "{}", drawn(&checked.faults));
    let all = drawn(&checked.faults);
    assert!(all.chars().all(|c| c == '\n' || !(c.is_control() || c == '\u{202e}')), "{all:?}");
    assert!(draw(&checked.faults[0], true).contains("\u{1b}[1;31merror\u{1b}[0m"));
}

#[test]
fn fifty_thousand_faults_take_no_time() {
    let started = Instant::now();
    let text = format!("{{ survey: x, fit: [ {} ] }}", "{q: 1}, ".repeat(25_000));
    let library = check::library(&small_library()).value;
    let checked = check::survey(&library, &survey_of(text.as_bytes()));
    assert!(checked.faults.len() > 50_000, "{}", checked.faults.len());
    let keys = lines(50_000, |n| format!("k{n}: 1"));
    assert!(check::survey(&library, &survey_of(keys.as_bytes())).faults.len() > 50_000);
    let marks = lines(20_000, |n| format!("  Z{n}: 1 V"));
    let marks = format!("survey: x\npanel: merrowby-mb6\nboard: fennick-f8\nreadings:\n{marks}");
    assert!(check::survey(&library, &survey_of(marks.as_bytes())).faults.len() > 19_000);
    // A check that looks at every pair would take an hour.
    assert!(started.elapsed() < Duration::from_secs(90), "{:?}", started.elapsed());
}

#[test]
fn faults_as_json() {
    let library = check::library(&small_library()).value;
    let checked = check::survey(&library, &survey_of(b"survey: x\npanel: merrowby-mb\nboard: fennick-f8\n"));
    let expected = serde_json::json!([{
        "file": "s.yaml",
        "line": 2,
        "column": 8,
        "message": "`merrowby-mb` is no card in `panels`",
        "help": "did you mean `merrowby-mb6`?",
        "level": "error",
    }]);
    assert_eq!(json(&checked.faults), expected);
}

#[test]
fn a_fault_is_drawn_as_a_compiler_draws_it() {
    let library = check::library(&small_library()).value;
    let checked = check::survey(&library, &survey_of(b"survey: x\npanel: merrowby-mb\nboard: fennick-f8\n"));
    let expected = "\
error: `merrowby-mb` is no card in `panels`
 --> s.yaml:2:8
  |
2 | panel: merrowby-mb
  |        ^^^^^^^^^^^
  = help: did you mean `merrowby-mb6`?
";
    assert_eq!(drawn(&checked.faults), expected);
}
