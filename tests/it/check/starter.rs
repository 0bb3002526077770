//! A starting file needs no more than its blanks filled in.

use super::{drawn, small_library};
use wirelore::check;
use wirelore::source::SourceFile;

/// The starting file with its blanks filled, and how many there were.
fn filled(kind: &str, id: &str) -> (String, usize) {
    let text = check::starter(kind, id).expect("a kind");
    let (mut out, mut blanks) = (String::new(), 0);
    for line in text.lines() {
        let blank = line.split_once(":   # for example ").filter(|_| !line.starts_with('#'));
        blanks += usize::from(blank.is_some());
        out += &blank.map_or(line.to_owned(), |(key, example)| format!("{key}: {example}"));
        out.push('\n');
    }
    (out, blanks)
}

#[test]
fn a_card_is_right_once_its_blanks_are_filled() {
    let folders = ["panel", "board", "supply", "device", "cable", "rules"].map(|kind| match kind {
        "supply" => (kind, "supplies"),
        "rules" => (kind, "rules"),
        "panel" => (kind, "panels"),
        "board" => (kind, "boards"),
        "device" => (kind, "devices"),
        _ => (kind, "cables"),
    });
    for (kind, folder) in folders {
        let mut files = small_library();
        let (text, blanks) = filled(kind, "quay-house");
        files.files.insert(format!("{folder}/quay-house.yaml"), Ok(text.into_bytes()));
        let checked = check::library(&files);
        assert!(checked.faults.is_empty(), "{kind}: {}", drawn(&checked.faults));
        assert_eq!(blanks, usize::from(kind == "cable"), "{kind}");
    }
}

#[test]
fn a_survey_is_right_once_its_blanks_are_filled() {
    let library = check::library(&small_library()).value;
    let (text, blanks) = filled("survey", "quay-house");
    assert_eq!(blanks, 2, "the panel and the board");
    let file = SourceFile { path: "surveys/quay-house.yaml".into(), bytes: Ok(text.into_bytes()), in_library: true };
    let checked = check::survey(&library, &file);
    assert!(checked.faults.is_empty() && checked.value.is_some(), "{}", drawn(&checked.faults));
    let blank = check::starter("survey", "quay-house").expect("a kind");
    let file = SourceFile { bytes: Ok(blank.into_bytes()), ..file };
    let messages: Vec<String> = check::survey(&library, &file).faults.into_iter().map(|f| f.message).collect();
    assert_eq!(messages, ["`panel` is empty", "`board` is empty"]);
}
