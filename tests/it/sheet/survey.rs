//! The survey file beside a sheet.

use super::panels;
use crate::pages::demo;
use wirelore::check::{self, Known, blank_survey, survey_keys};
use wirelore::diagnostics::draw;
use wirelore::model::Library;
use wirelore::source::SourceFile;

/// What `check` says of a survey's text.
fn messages(library: &Library, text: &str) -> Vec<String> {
    let source = SourceFile { path: "survey.yaml".into(), bytes: Ok(text.as_bytes().to_vec()), in_library: false };
    check::survey(library, &source).faults.iter().map(|fault| fault.message.clone()).collect()
}

/// The text with every `# ` taken away and every blank filled in: with its example, or with what fits its place.
fn filled(text: &str) -> String {
    let mut out = String::new();
    let (mut block, mut skip) = (String::new(), false);
    for line in text.lines().filter(|line| !line.starts_with("##") && !line.is_empty()) {
        let line = line.strip_prefix("# ").unwrap_or(line);
        let (left, comment) = line.split_once("  # ").unwrap_or((line, ""));
        let left = left.trim_end();
        if !left.starts_with(' ') {
            block = left.to_string();
        }
        // The cables after the first have no comments, so no examples.
        skip = block == "cables:" && (skip || left.contains("C2"));
        if skip {
            continue;
        }
        let example = comment.rsplit_once("for example ").map(|(_, example)| example);
        let value = match (block.as_str(), left.trim_start()) {
            ("readings:", key) if key != block => "13.6 V",
            ("fuses:", key) if key != block => "\"1 A F\"",
            (_, "red:" | "black:" | "yellow:" | "blue:" | "green:" | "white:") => "spare",
            // The example of an item that is kept stands beside that of a new one.
            ("fit:", "device:") => "motion-detector",
            _ if left.ends_with(':') => example.unwrap_or_default(),
            _ => "",
        };
        out.push_str(format!("{left} {value}").trim_end());
        out.push('\n');
    }
    out
}

#[test]
fn a_blank_survey_wants_only_what_nobody_knows_yet() {
    let (library, _) = demo::library();
    for panel in panels(&library) {
        let blank = blank_survey(&Known { library: &library, panel, board: None, cables: 3 }, "new-job");
        let expected = match panel {
            Some(_) => vec!["`board` is empty"],
            None => vec!["`panel` is empty", "`board` is empty"],
        };
        assert_eq!(messages(&library, &blank), expected);
        let blank = blank_survey(&Known { library: &library, panel, board: Some("fennick-f8"), cables: 3 }, "new-job");
        assert_eq!(messages(&library, &blank).len(), usize::from(panel.is_none()));
    }
}

#[test]
fn every_line_can_be_filled_in() {
    let (library, _) = demo::library();
    for panel in library.panels.values().map(Some) {
        let text = filled(&blank_survey(&Known { library: &library, panel, board: None, cables: 2 }, "new-job"));
        let source = SourceFile { path: "survey.yaml".into(), bytes: Ok(text.clone().into_bytes()), in_library: false };
        let checked = check::survey(&library, &source);
        let drawn: String = checked.faults.iter().map(|fault| draw(fault, false)).collect();
        assert!(checked.faults.is_empty(), "{drawn}\n{text}");
        let survey = checked.value.expect("a survey without faults");
        let marks = panel.map_or(0, |panel| panel.unit.fuses.len());
        assert_eq!(survey.fuses.len(), marks, "every fuse has its line");
        assert!(survey.readings.len() > 5 && survey.cables.len() == 1 && survey.battery.get().is_some());
    }
}

#[test]
fn it_has_a_line_for_every_key() {
    let (library, _) = demo::library();
    let blank = blank_survey(&Known { library: &library, panel: None, board: None, cables: 1 }, "new-job");
    for key in survey_keys() {
        let name = key.path.rsplit('.').next().expect("a name");
        let has = |line: &str| line.trim_start_matches(['#', ' ', '-']).starts_with(&format!("{name}:"));
        assert!(blank.lines().any(has), "{}", key.path);
    }
}

#[test]
fn each_cable_has_its_blank() {
    let (library, _) = demo::library();
    for cables in [1, 2, 40, 200] {
        let blank = blank_survey(&Known { library: &library, panel: None, board: None, cables }, "new-job");
        assert_eq!(blank.matches("cable: C").count(), cables);
    }
}

#[test]
fn a_mark_can_be_anything_that_is_printed() {
    let (mut library, _) = demo::library();
    let mut panel = library.panels.get("dunmarrow-d3").expect("a panel").clone();
    let marks = ["1", "A\"B", "x: y", "# z", "C\\", "yes", "{a", "- b", "é|", "0V", "-", "+"];
    for (terminal, mark) in panel.unit.terminals.iter_mut().rev().zip(marks) {
        terminal.mark = mark.to_string();
        terminal.does = Some("two\nlines: # and\u{2028}more".to_string());
    }
    library.panels.insert("dunmarrow-d3".into(), panel.clone());
    let blank = blank_survey(&Known { library: &library, panel: Some(&panel), board: None, cables: 1 }, "new-job");
    assert_eq!(messages(&library, &filled(&blank)), Vec::<String>::new(), "{}", filled(&blank));
}
