//! A whole library: each file is looked at by itself, then all of them together.

use super::Checked;
use super::look::{self, Bytes, Looked, Value};
use super::sheet::{Sheet, spelling};
use crate::diagnostics::{Fault, Span, sort};
use crate::model::Library;
use crate::source::Files;
use std::collections::BTreeMap;

/// The folders of cards, each with the kind of card that lies in it.
pub(super) const FOLDERS: [(&str, &str); 5] =
    [("boards", "board"), ("cables", "cable"), ("devices", "device"), ("panels", "panel"), ("supplies", "supply")];

/// How many files are looked at: given how many there are and how to look at one, gives what each of them is, in order.
pub type Spread<'a> = dyn Fn(usize, &(dyn Fn(usize) -> Looked + Sync)) -> Vec<Looked> + 'a;

/// Reads and checks every card, rules file, note and ring of words. Only what is without fault is in the value.
/// Surveys are not looked at: they are checked one by one.
#[must_use]
pub fn library(files: &Files) -> Checked<Library> {
    library_by(files, &|count, look| (0..count).map(look).collect())
}

/// The same, with the files looked at as `spread` will have it, on several threads for example.
#[must_use]
pub fn library_by(files: &Files, spread: &Spread<'_>) -> Checked<Library> {
    let all = files.files.iter().map(|(path, bytes)| (path.as_str(), bytes));
    let all = all.filter(|(path, _)| !path.starts_with("surveys/"));
    let (notes, cards): (Vec<File<'_>>, Vec<File<'_>>) = all.partition(|(path, _)| path.starts_with("notes/"));
    let mut run = Run { files, library: Library::default(), faults: Vec::new(), ids: BTreeMap::new() };
    let looked = each(spread, &cards, &|path, bytes| look::card(files, path, bytes));
    for ((path, bytes), looked) in cards.iter().zip(looked) {
        run.card(path, bytes, looked);
    }
    let library = &run.library;
    let looked = each(spread, &notes, &|path, bytes| look::note(files, library, path, bytes));
    for ((path, bytes), looked) in notes.iter().zip(looked) {
        run.note(path, bytes, looked);
    }
    for notes in run.library.notes.values_mut() {
        notes.sort_by(|a, b| (a.date, &a.file).cmp(&(b.date, &b.file)));
    }
    super::evidence::weigh(&mut run.library);
    sort(&mut run.faults);
    Checked { value: run.library, faults: run.faults }
}

/// A file's path and what was read of it.
type File<'f> = (&'f str, &'f Bytes);

/// What each of some files is.
fn each(spread: &Spread<'_>, some: &[File<'_>], look: &(dyn Fn(&str, &Bytes) -> Looked + Sync)) -> Vec<Looked> {
    spread(some.len(), &|at| some.get(at).map(|(path, bytes)| look(path, bytes)).unwrap_or_default())
}

/// A run over a library's files.
struct Run<'f> {
    files: &'f Files,
    library: Library,
    faults: Vec<Fault>,
    /// Each card's id with the file that has it.
    ids: BTreeMap<String, String>,
}

impl Run<'_> {
    /// Takes in a file that is no note, when it is without fault.
    fn card(&mut self, path: &str, bytes: &Bytes, mut looked: Looked) {
        // A card that is named otherwise than its file has a fault of its own, and takes no id from another.
        if let Some((id, span)) = looked.id.filter(|(id, _)| look::stem(path) == id) {
            let shown = self.files.shown(path);
            if let Some(first) = self.ids.get(&id) {
                looked.faults.push(second(&shown, bytes, span, &id, first));
            } else {
                self.ids.insert(id, shown);
            }
        }
        if looked.faults.is_empty() {
            looked.value.into_iter().for_each(|value| take(&mut self.library, value));
            return;
        }
        if looked.is_card {
            self.library.faulty.insert(path.to_owned());
        }
        self.faults.append(&mut looked.faults);
    }

    /// Takes in a note that is without fault, of a card that is.
    fn note(&mut self, path: &str, bytes: &Bytes, looked: Looked) {
        let (card, _) = look::of_note(path);
        let mut faults = Vec::new();
        // A file that can't be read says nothing of its card.
        if let Ok(text) = look::text("", bytes) {
            faults = self.note_of_card(&self.files.shown(path), text, card);
        }
        faults.extend(looked.faults);
        if let Some(Value::Note(note)) = looked.value.filter(|_| faults.is_empty() && self.library.card(card).is_some())
        {
            self.library.notes.entry(card.to_owned()).or_default().push(note);
        }
        self.faults.append(&mut faults);
    }

    /// A note's folder is a card's id; a card with faults has notes all the same.
    fn note_of_card(&self, shown: &str, text: &str, card: &str) -> Vec<Fault> {
        let mut sheet = Sheet::new(shown, text);
        if self.library.card(card).is_some() {
            return sheet.faults;
        }
        let faulty = FOLDERS.iter().any(|(folder, _)| self.library.faulty.contains(&format!("{folder}/{card}.yaml")));
        if !faulty {
            let known: Vec<&str> = self.ids.keys().map(String::as_str).collect();
            let help = format!("a note lies in `notes/CARD-ID/`; {}", spelling(card, &known));
            sheet.fault(Span::default(), format!("there is no card `{card}`"), help);
        }
        sheet.faults
    }
}

/// That another card had the id first.
fn second(shown: &str, bytes: &Bytes, span: Span, id: &str, first: &str) -> Fault {
    let text = look::text(shown, bytes).unwrap_or_default();
    let message = format!("another card has the id `{id}`: `{first}`");
    Fault::new(shown, text, span, message).with_help("give one of them another id, and its file the same name")
}

fn take(library: &mut Library, value: Value) {
    match value {
        Value::Panel(panel) => drop(library.panels.insert(panel.unit.id.clone(), *panel)),
        Value::Board(board) => drop(library.boards.insert(board.unit.id.clone(), *board)),
        Value::Supply(supply) => drop(library.supplies.insert(supply.unit.id.clone(), *supply)),
        Value::Device(device) => drop(library.devices.insert(device.id.clone(), *device)),
        Value::Cable(cable) => drop(library.cables.insert(cable.id.clone(), *cable)),
        Value::Rules(rules) => drop(library.rules.insert(rules.rules.clone(), *rules)),
        Value::Terms(terms) => library.terms = terms,
        // A note goes to its card.
        Value::Note(_) => {}
    }
}
