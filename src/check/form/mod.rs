//! A filled-in form, read back: what its cells say becomes the text of a survey, and what is wrong with that is told by
//! sheet and cell.

mod cables;
mod cells;
mod text;
mod tree;

use super::survey;
use crate::diagnostics::Fault;
use crate::model::Library;
use crate::source::{SourceFile, Workbook};
use cells::{Blanks, Place};
use tree::{Leaf, Tree};

/// A survey read from a form.
#[derive(Debug, Clone)]
pub struct FormSurvey {
    /// The survey's text.
    pub text: String,
    /// What is wrong, sheet by sheet.
    pub faults: Vec<CellFault>,
    /// What was left out because nothing is written about it, line by line.
    pub left_out: Vec<String>,
}

/// Something wrong in a cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CellFault {
    /// The sheet; empty when the fault is the whole form's.
    pub sheet: String,
    /// The cell, `B7`; empty when it is the whole sheet's.
    pub cell: String,
    /// What the cell holds.
    pub found: String,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: String,
}

impl CellFault {
    fn at(place: &Place, message: impl Into<String>, help: impl Into<String>) -> Self {
        Self {
            sheet: place.sheet.clone(),
            cell: place.cell.clone(),
            found: place.found.clone(),
            message: message.into(),
            help: help.into(),
        }
    }
}

/// The survey `id` as a form gives it, checked against the faultless cards of a library.
#[must_use]
pub fn form_survey(library: &Library, book: &Workbook, id: &str) -> FormSurvey {
    let mut blanks = Blanks::read(book);
    if blanks.fields.is_empty() && blanks.tables.is_empty() {
        let message = "this is no survey form: it has no sheet whose cells stand with the keys of a survey";
        let help = "begin with the form that `wirelore sheet PANEL --xlsx` writes";
        let fault = CellFault::at(&Place::default(), message, help);
        return FormSurvey { text: String::new(), faults: vec![fault], left_out: Vec::new() };
    }
    let root = tree(&mut blanks, id);
    let (text, places) = text::text(&root, id);
    let source = SourceFile { path: "form".into(), bytes: Ok(text.clone().into_bytes()), in_library: false };
    let checked = survey(library, &source);
    let mut faults = blanks.faults;
    faults.extend(checked.faults.iter().map(|fault| in_cell(fault, &places)));
    FormSurvey { text, faults, left_out: blanks.left_out }
}

/// Everything that is written, as the survey's tree in the order of its keys.
fn tree(blanks: &mut Blanks, id: &str) -> Tree {
    let mut root = Tree::default();
    root.put("survey", identity(blanks, id));
    for key in ["panel", "board"] {
        let place = blanks.fields.get(key).map(|leaf| leaf.place.clone()).unwrap_or_default();
        root.put(key, Leaf { text: String::new(), place });
    }
    let fields = blanks.fields.clone();
    for (key, leaf) in fields.iter().filter(|(key, leaf)| !leaf.text.is_empty() && *key != "survey") {
        match key.as_str() {
            "battery" => battery(blanks, &mut root, leaf),
            "remove" => cables::also_removed(&mut root, leaf),
            key => root.put(key, leaf.clone()),
        }
    }
    cables::tables(blanks, &mut root);
    root.in_order();
    root
}

/// The survey's id: the one that was asked for, which the form may name or leave blank.
fn identity(blanks: &mut Blanks, id: &str) -> Leaf {
    let leaf = blanks.fields.get("survey").cloned().unwrap_or_default();
    if !leaf.text.is_empty() && leaf.text != id {
        let message = format!("the form is of the survey `{}`, and `{id}` was asked for", leaf.text);
        blanks.faults.push(CellFault::at(&leaf.place, message, "write the same, or leave the cell empty"));
    }
    Leaf { text: id.to_string(), place: leaf.place }
}

/// Whether there is a battery at all.
fn battery(blanks: &mut Blanks, root: &mut Tree, leaf: &Leaf) {
    let others = blanks.fields.iter().any(|(key, leaf)| key.starts_with("battery.") && !leaf.text.is_empty());
    match (leaf.text.as_str(), others) {
        ("none", false) => root.put("battery", leaf.clone()),
        ("none", true) => {
            let message = "there is no battery, and yet something is written about it";
            blanks.faults.push(CellFault::at(
                &leaf.place,
                message,
                "write `there`, or empty the battery's other cells",
            ));
        }
        ("there", _) => {}
        (other, _) => {
            let message = format!("`{other}` is no word for whether there is a battery");
            blanks.faults.push(CellFault::at(&leaf.place, message, "write `there` or `none`"));
        }
    }
}

/// A fault of the text, in the cell from which its line came.
fn in_cell(fault: &Fault, places: &[Place]) -> CellFault {
    let place = |line: usize| places.get(line.saturating_sub(1)).cloned().unwrap_or_default();
    let message = match fault.message.rsplit_once(" in line ") {
        Some((before, line)) => match line.parse().map(place) {
            Ok(first) => format!("{before} in sheet {}, cell {}", first.sheet, first.cell),
            Err(_) => fault.message.clone(),
        },
        None => fault.message.clone(),
    };
    CellFault::at(&place(fault.line), message, &fault.help)
}
