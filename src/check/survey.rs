//! One survey.

use super::keys::SURVEY;
use super::sheet::Sheet;
use super::{Checked, build, shape};
use crate::diagnostics::{Fault, sort};
use crate::model::{Library, Survey};
use crate::source::{self, SourceFile};

/// Reads and checks a survey against the faultless cards of a library. The value is `None` when it has a fault.
#[must_use]
pub fn survey(library: &Library, file: &SourceFile) -> Checked<Option<Survey>> {
    let bytes = match &file.bytes {
        Ok(bytes) => bytes,
        Err(fault) => return failed(Fault::of_file(&file.path, &fault.message).with_help(&fault.help)),
    };
    let text = match source::text_of(&file.path, bytes) {
        Ok(text) => text,
        Err(fault) => return failed(*fault),
    };
    let root = match source::read(&file.path, text) {
        Ok(root) => root,
        Err(fault) => return failed(*fault),
    };
    let mut sheet = Sheet::new(&file.path, text);
    shape::block(&mut sheet, &root, &SURVEY);
    let survey = build::survey::survey(&mut sheet, &root, library);
    if file.in_library {
        super::look::id_is_stem(&mut sheet, &root, "survey");
    }
    let mut faults = sheet.faults;
    sort(&mut faults);
    Checked { value: survey.filter(|_| faults.is_empty()), faults }
}

fn failed(fault: Fault) -> Checked<Option<Survey>> {
    Checked { value: None, faults: vec![fault] }
}
