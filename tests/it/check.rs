//! What `check` accepts, and what it refuses, where, and with what words.

mod faults;
mod fuzz;
mod hostile;
mod schemas;
mod starter;
mod tree;
mod walk;
pub(crate) mod within;

use std::path::Path;
use wirelore::check;
use wirelore::diagnostics::{Fault, draw};
use wirelore::source::Files;

/// The small library of these tests.
pub(crate) fn small_library() -> Files {
    Files::from_dir(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/check/library"))
}

pub(crate) fn drawn(faults: &[Fault]) -> String {
    faults.iter().map(|fault| draw(fault, false)).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_right_library_has_no_faults() {
    let files = small_library();
    let checked = check::library(&files);
    assert!(checked.faults.is_empty(), "{}", drawn(&checked.faults));
    for file in files.surveys() {
        let survey = check::survey(&checked.value, &file);
        assert!(survey.faults.is_empty(), "{}", drawn(&survey.faults));
        assert!(survey.value.is_some());
    }
    assert_eq!(checked.value.notes_of("merrowby-mb6").len(), 1);
}

#[test]
fn the_demo_library_has_no_faults() {
    let files = Files::embedded();
    let checked = check::library(&files);
    assert!(checked.faults.is_empty(), "{}", drawn(&checked.faults));
    for file in files.surveys() {
        let survey = check::survey(&checked.value, &file);
        assert!(survey.faults.is_empty() && survey.value.is_some(), "{}", drawn(&survey.faults));
    }
}
