//! One survey: read first, so that it can be asked which cards it names, then checked against them.

use super::build::{self, look};
use super::keys::SURVEY;
use super::sheet::Sheet;
use super::{Checked, shape};
use crate::diagnostics::{Fault, sort};
use crate::model::{Library, Survey};
use crate::source::{self, Node, SourceFile};
use std::collections::BTreeSet;

/// A survey that could be read.
#[derive(Debug)]
pub struct ReadSurvey<'f> {
    file: &'f SourceFile,
    text: &'f str,
    root: Node,
}

/// Reads a survey.
///
/// # Errors
/// When its bytes are no text, or its text is no YAML.
pub fn read_survey(file: &SourceFile) -> Result<ReadSurvey<'_>, Box<Fault>> {
    let bytes = file.bytes.as_ref();
    let bytes = bytes.map_err(|fault| Box::new(Fault::of_file(&file.path, &fault.message).with_help(&fault.help)))?;
    let text = source::text_of(&file.path, bytes)?;
    let root = source::read(&file.path, text)?;
    Ok(ReadSurvey { file, text, root })
}

/// Reads and checks a survey against the faultless cards of a library. The value is `None` when it has a fault.
#[must_use]
pub fn survey(library: &Library, file: &SourceFile) -> Checked<Option<Survey>> {
    match read_survey(file) {
        Ok(read) => read.check(library),
        Err(fault) => Checked { value: None, faults: vec![*fault] },
    }
}

impl ReadSurvey<'_> {
    /// The id that it gives itself.
    #[must_use]
    pub fn id(&self) -> Option<&str> {
        self.root.get("survey")?.text()
    }

    /// The ids of all cards that it names, whether they are there or not. Every card that the check looks up is among
    /// them.
    #[must_use]
    pub fn cards(&self) -> BTreeSet<&str> {
        let root = &self.root;
        let cables = || look::rows(root, "cables");
        let own = ["panel", "board", "power"].into_iter().filter_map(|key| root.get(key));
        let kinds = cables().filter_map(|cable| cable.get("type"));
        let served = cables().flat_map(|cable| look::rows(cable, "serves"));
        let devices = served.chain(look::rows(root, "fit")).filter_map(|row| row.get("device"));
        own.chain(kinds).chain(devices).filter_map(Node::text).collect()
    }

    /// The rules that it names, or that hold when it names none.
    #[must_use]
    pub fn rules(&self) -> &str {
        self.root.get("rules").map_or(build::survey::DEFAULT_RULES, |node| node.text().unwrap_or_default())
    }

    /// Checks it against the faultless cards of a library: those that it names are enough where it has no fault. The
    /// value is `None` when it has one.
    #[must_use]
    pub fn check(&self, library: &Library) -> Checked<Option<Survey>> {
        let mut sheet = Sheet::new(&self.file.path, self.text);
        shape::block(&mut sheet, &self.root, &SURVEY);
        let survey = build::survey::survey(&mut sheet, &self.root, library);
        if self.file.in_library {
            super::look::id_is_stem(&mut sheet, &self.root, "survey");
        }
        let mut faults = sheet.faults;
        sort(&mut faults);
        Checked { value: survey.filter(|_| faults.is_empty()), faults }
    }
}
