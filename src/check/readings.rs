//! A file of readings, as the page for the pocket saves it.

use super::keys::READINGS;
use super::sheet::Sheet;
use super::{Checked, build, shape};
use crate::diagnostics::sort;
use crate::model::Visit;
use crate::source::{self, Node};
use std::collections::BTreeMap;

/// Readings by survey: each as it is written, and what it says.
pub type Readings = BTreeMap<String, (Node, Visit)>;

/// Reads and checks a file of readings. Empty when it has a fault.
#[must_use]
pub fn readings(path: &str, bytes: &[u8]) -> Checked<Readings> {
    let read = source::text_of(path, bytes).and_then(|text| Ok((text, source::read(path, text)?)));
    let (text, root) = match read {
        Ok(read) => read,
        Err(fault) => return Checked { value: Readings::new(), faults: vec![*fault] },
    };
    let mut sheet = Sheet::new(path, text);
    shape::block(&mut sheet, &root, &READINGS);
    let mut value = Readings::new();
    for entry in root.get("readings").and_then(Node::entries).unwrap_or_default() {
        let (Some(survey), Some(_)) = (entry.key.text(), entry.value.entries()) else { continue };
        if let Some(visit) = build::as_left::visit(&mut sheet, &entry.value) {
            value.insert(survey.to_owned(), (entry.value.clone(), visit));
        }
    }
    let mut faults = sheet.faults;
    sort(&mut faults);
    if !faults.is_empty() {
        value.clear();
    }
    Checked { value, faults }
}
