//! Files with faults: each folder below `tests/check/faults` is laid over the small library, and the faults
//! found in it must be those written beside its lines, no fewer and no more:
//!
//! `#~ TEXT | MESSAGE ? HELP` at the end of a line expects a fault there whose caret stands under `TEXT`, whose
//! message holds `MESSAGE` and, where `? HELP` is there, whose help holds `HELP`. `#~1` expects it in line 1.

use super::{drawn, small_library};
use std::fmt::Write as _;
use std::path::Path;
use wirelore::check;
use wirelore::diagnostics::Fault;
use wirelore::source::Files;

/// What is written beside a line.
struct Expected {
    line: usize,
    under: String,
    message: String,
    help: String,
}

impl Expected {
    fn read(line: usize, text: &str) -> Self {
        let (line, text) = text.strip_prefix('1').map_or((line, text), |rest| (1, rest));
        let (under, message) = text.split_once('|').unwrap_or((text, ""));
        let (message, help) = message.split_once(" ? ").unwrap_or((message, ""));
        let own = |text: &str| text.trim().to_owned();
        Self { line, under: own(under), message: own(message), help: own(help) }
    }

    fn fits(&self, fault: &Fault) -> bool {
        let under: String = fault.source.chars().skip(fault.before).take(fault.length).collect();
        self.line == fault.line
            && (self.under.is_empty() || under == self.under)
            && (fault.message.contains(&self.message) || fault.help.contains(&self.message))
            && fault.help.contains(&self.help)
            && !fault.help.is_empty()
    }
}

fn expected(text: &str) -> Vec<Expected> {
    let lines = text.lines().enumerate();
    lines.flat_map(|(at, line)| line.split("#~").skip(1).map(move |part| Expected::read(at + 1, part))).collect()
}

/// The faults of a file against what is written beside its lines; what does not fit, in words.
fn compare(text: &str, mut found: Vec<&Fault>) -> String {
    let mut out = String::new();
    for want in expected(text) {
        match found.iter().position(|fault| want.fits(fault)) {
            Some(at) => drop(found.remove(at)),
            None => {
                let _ =
                    writeln!(out, "not found: line {}: {} | {} ? {}", want.line, want.under, want.message, want.help);
            }
        }
    }
    let left: Vec<Fault> = found.into_iter().cloned().collect();
    if left.is_empty() { out } else { out + "not expected:\n" + &drawn(&left) }
}

fn case(name: &str) {
    let mut files = small_library();
    let own = Files::from_dir(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/check/faults").join(name));
    files.files.retain(|path, _| !path.starts_with("surveys/"));
    files.files.extend(own.files.clone());
    let checked = check::library(&files);
    let mut faults = checked.faults;
    for file in files.surveys() {
        faults.extend(check::survey(&checked.value, &file).faults);
    }
    let mut wrong = String::new();
    for (path, bytes) in &own.files {
        let text = String::from_utf8(bytes.clone().expect("a fixture can be read")).expect("a fixture is text");
        let shown = files.shown(path);
        let found = faults.iter().filter(|fault| fault.file == shown).collect();
        let difference = compare(&text, found);
        if !difference.is_empty() {
            let _ = writeln!(wrong, "== {path}\n{difference}");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn a_panel_card() {
    case("panel");
}

#[test]
fn a_board_card() {
    case("board");
}

#[test]
fn device_cards() {
    case("device");
}

#[test]
fn cable_cards() {
    case("cable");
}

#[test]
fn kinds_and_ids() {
    case("names");
}

#[test]
fn rules_terms_and_notes() {
    case("rules");
}

#[test]
fn surveys() {
    case("survey");
}

/// What is found in the small library where one text stands for another in one of its files.
fn with(path: &str, from: &str, to: &str) -> Vec<String> {
    let mut files = small_library();
    let bytes = files.files.get(path).expect("the file").clone().expect("it can be read");
    let text = String::from_utf8(bytes).expect("it is text");
    assert!(text.contains(from), "{from}");
    files.files.insert(path.to_string(), Ok(text.replace(from, to).into_bytes()));
    check::library(&files).faults.into_iter().map(|fault| fault.message).collect()
}

#[test]
fn bands_may_stand_from_the_highest_down() {
    let (normal, alarm) = ("{ state: normal, to: 1 kΩ }", "{ state: alarm, from: 1 kΩ }");
    let swapped = |low: &str, high: &str| {
        with("boards/fennick-f8.yaml", &format!("[ {normal}, {alarm} ]"), &format!("[ {high}, {low} ]"))
    };
    assert_eq!(swapped(normal, alarm), Vec::<String>::new());
    let faults = swapped("{ state: normal, to: 1.1 kΩ }", alarm);
    assert!(
        faults.iter().all(|fault| fault.starts_with("this band overlaps `alarm`")) && faults.len() == 1,
        "{faults:?}"
    );
}

#[test]
fn a_notes_name_has_a_dash_behind_its_date() {
    let mut files = small_library();
    let old = "notes/merrowby-mb6/2026-11-03-strobe-trigger-idles.md";
    let note = files.files.remove(old).expect("the note");
    for (name, faults) in [("2026-11-03-strobe.md", 0), ("2026-11-03strobe.md", 1), ("2026-11-3-strobe.md", 1)] {
        let mut renamed = files.clone();
        renamed.files.insert(format!("notes/merrowby-mb6/{name}"), note.clone());
        let found = check::library(&renamed).faults;
        let named = found.iter().filter(|fault| fault.message == "a note's file name begins with its date").count();
        assert_eq!((named, found.len()), (faults, faults), "{name}: {found:?}");
    }
}
