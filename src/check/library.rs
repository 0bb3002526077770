//! A whole library: each file by the folder it lies in.

use super::keys::{self, Block};
use super::sheet::{Sheet, spelling};
use super::{Checked, build, shape};
use crate::diagnostics::{Fault, sort};
use crate::model::Library;
use crate::source::{self, FileFault, Files, Node};
use std::collections::BTreeMap;

/// The folders of cards, each with the kind of card that lies in it.
const FOLDERS: [(&str, &str); 5] =
    [("boards", "board"), ("cables", "cable"), ("devices", "device"), ("panels", "panel"), ("supplies", "supply")];

/// Reads and checks every card, rules file, note and ring of words. Only what is without fault is in the value.
/// Surveys are not looked at: they are checked one by one.
#[must_use]
pub fn library(files: &Files) -> Checked<Library> {
    let mut run = Run { files, library: Library::default(), faults: Vec::new(), ids: BTreeMap::new() };
    for (path, bytes) in &files.files {
        run.file(path, bytes);
    }
    for (path, bytes) in files.files.iter().filter(|(path, _)| path.starts_with("notes/")) {
        run.note(path, bytes);
    }
    for notes in run.library.notes.values_mut() {
        notes.sort_by(|a, b| (a.date, &a.file).cmp(&(b.date, &b.file)));
    }
    super::evidence::weigh(&mut run.library);
    sort(&mut run.faults);
    Checked { value: run.library, faults: run.faults }
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
    /// Checks one file by the folder it lies in. Notes come later: they refer to cards.
    fn file(&mut self, path: &str, bytes: &Result<Vec<u8>, FileFault>) {
        let (folder, _) = path.split_once('/').unwrap_or((path, ""));
        match folder {
            "notes" | "surveys" => {}
            _ => self.card(path, folder, bytes),
        }
    }

    fn card(&mut self, path: &str, folder: &str, bytes: &Result<Vec<u8>, FileFault>) {
        let shown = self.files.shown(path);
        let Some(block) = block_of(folder) else {
            // What is no card's place holds a fault of its own, or nothing to read.
            self.faults.extend(bytes.as_ref().err().map(|fault| unread(&shown, fault)));
            return;
        };
        let Some(text) = self.text(&shown, bytes) else {
            self.library.faulty.insert(path.to_owned());
            return;
        };
        let before = self.faults.len();
        let mut sheet = Sheet::new(&shown, text);
        match source::read(&shown, text) {
            Err(fault) => sheet.faults.push(*fault),
            Ok(root) => {
                shape::block(&mut sheet, &root, block);
                self.take(&mut sheet, &root, folder);
            }
        }
        self.faults.append(&mut sheet.faults);
        if self.faults.len() > before {
            self.library.faulty.insert(path.to_owned());
        }
    }

    /// The text of a file; a fault when there is none.
    fn text<'b>(&mut self, shown: &str, bytes: &'b Result<Vec<u8>, FileFault>) -> Option<&'b str> {
        let bytes = match bytes {
            Ok(bytes) => bytes,
            Err(fault) => {
                self.faults.push(unread(shown, fault));
                return None;
            }
        };
        source::text_of(shown, bytes).map_err(|fault| self.faults.push(*fault)).ok()
    }

    /// Builds what the file holds and takes it in when it is without fault.
    fn take(&mut self, sheet: &mut Sheet<'_>, root: &Node, folder: &str) {
        self.identity(sheet, root, folder);
        let library = &mut self.library;
        match folder {
            "panels" => {
                let panel = build::panel::panel(sheet, root);
                keep(sheet, &mut library.panels, panel.unit.id.clone(), panel);
            }
            "boards" => {
                let board = build::board::board(sheet, root);
                keep(sheet, &mut library.boards, board.unit.id.clone(), board);
            }
            "supplies" => {
                let supply = build::unit::supply(sheet, root);
                keep(sheet, &mut library.supplies, supply.unit.id.clone(), supply);
            }
            "devices" => {
                let device = build::device::device(sheet, root);
                keep(sheet, &mut library.devices, device.id.clone(), device);
            }
            "cables" => {
                let cable = build::cable::cable(sheet, root);
                keep(sheet, &mut library.cables, cable.id.clone(), cable);
            }
            "rules" => {
                let rules = build::rules::rules(sheet, root);
                keep(sheet, &mut library.rules, rules.rules.clone(), rules);
            }
            _ => {
                let terms = build::rules::terms(root);
                if sheet.faults.is_empty() {
                    library.terms = terms;
                }
            }
        }
    }

    /// `kind` fits the folder, `id` the file's name, and no other card has it.
    fn identity(&mut self, sheet: &mut Sheet<'_>, root: &Node, folder: &str) {
        if folder == "rules" {
            id_is_stem(sheet, root, "rules");
        }
        let Some((_, kind)) = FOLDERS.iter().find(|(name, _)| *name == folder) else { return };
        kind_fits(sheet, root, folder, kind);
        id_is_stem(sheet, root, "id");
        let Some((node, id)) = root.get("id").and_then(|node| Some((node, node.text()?))) else { return };
        if let Some(first) = self.ids.get(id) {
            let message = format!("another card has the id `{id}`: `{first}`");
            sheet.fault(node.span, message, "give one of them another id, and its file the same name");
        } else {
            self.ids.insert(id.to_owned(), sheet.file.to_owned());
        }
    }

    fn note(&mut self, path: &str, bytes: &Result<Vec<u8>, FileFault>) {
        let shown = self.files.shown(path);
        let Some(text) = self.text(&shown, bytes) else { return };
        let mut parts = path.split('/').skip(1);
        let (card, name) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
        let read = super::note::note(self.library.card(card), &shown, name, text);
        let mut faults = self.note_of_card(&shown, text, card);
        faults.extend(read.faults);
        if let Some(note) = read.value.filter(|_| faults.is_empty() && self.library.card(card).is_some()) {
            self.library.notes.entry(card.to_owned()).or_default().push(note);
        }
        self.faults.append(&mut faults);
    }

    /// A note's folder is a card's id; a card with faults has notes all the same.
    fn note_of_card(&self, shown: &str, text: &str, card: &str) -> Vec<Fault> {
        let mut sheet = Sheet::new(shown, text);
        let faulty = FOLDERS.iter().any(|(folder, _)| self.library.faulty.contains(&format!("{folder}/{card}.yaml")));
        if self.library.card(card).is_none() && !faulty {
            let known: Vec<&str> = self.ids.keys().map(String::as_str).collect();
            let help = format!("a note lies in `notes/CARD-ID/`; {}", spelling(card, &known));
            sheet.fault(crate::diagnostics::Span::default(), format!("there is no card `{card}`"), help);
        }
        sheet.faults
    }
}

fn keep<T>(sheet: &Sheet<'_>, cards: &mut BTreeMap<String, T>, id: String, card: T) {
    if sheet.faults.is_empty() {
        cards.insert(id, card);
    }
}

fn unread(shown: &str, fault: &FileFault) -> Fault {
    Fault::of_file(shown, &fault.message).with_help(&fault.help)
}

/// The table of keys of what lies in a folder.
pub(crate) fn block_of(folder: &str) -> Option<&'static Block> {
    match folder {
        "panels" => Some(&keys::PANEL),
        "boards" => Some(&keys::BOARD),
        "supplies" => Some(&keys::SUPPLY),
        "devices" => Some(&keys::DEVICE),
        "cables" => Some(&keys::CABLE),
        "rules" => Some(&keys::RULES),
        "terms.yaml" => Some(&keys::TERMS),
        _ => None,
    }
}

fn kind_fits(sheet: &mut Sheet<'_>, root: &Node, folder: &str, kind: &str) {
    let Some((node, found)) = root.get("kind").and_then(|node| Some((node, node.text()?))) else { return };
    if found == kind || found.is_empty() {
        return;
    }
    let help = match FOLDERS.iter().find(|(_, other)| *other == found) {
        Some((other, _)) => format!("write `kind: {kind}`, or move the file to `{other}/`"),
        None => format!("write `kind: {kind}`"),
    };
    sheet.fault(node.span, format!("what lies in `{folder}/` is of the kind `{kind}`, not `{found}`"), help);
}

/// The id at `key` equals the file's stem.
pub(super) fn id_is_stem(sheet: &mut Sheet<'_>, root: &Node, key: &str) {
    let name = sheet.file.rsplit('/').next().unwrap_or(sheet.file);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned();
    let Some((node, id)) = root.get(key).and_then(|node| Some((node, node.text()?))) else { return };
    if id != stem && !id.trim().is_empty() {
        let message = format!("the id `{id}` is not the file's name, `{stem}`");
        sheet.fault(node.span, message, format!("write `{key}: {stem}`, or rename the file to `{id}.yaml`"));
    }
}
