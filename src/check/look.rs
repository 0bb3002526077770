//! One file of a library, looked at by itself: whatever can be said of it without the others. Files can be looked at in
//! any order, and several at once.

use super::build;
use super::keys::{self, Block};
use super::library::FOLDERS;
use super::shape;
use super::sheet::Sheet;
use crate::diagnostics::{Fault, Span};
use crate::model::{Board, Cable, Device, Library, Note, Panel, PowerSupply, Rules, Terms};
use crate::source::{self, FileFault, Files, Node};

/// What a file says, and what is wrong with it.
#[derive(Debug, Default)]
pub struct Looked {
    /// What it holds, when it is without fault.
    pub(super) value: Option<Value>,
    pub(super) faults: Vec<Fault>,
    /// The id that a card gives itself, and where.
    pub(super) id: Option<(String, Span)>,
    /// Whether it is a card or the like, of which others must know that it has faults.
    pub(super) is_card: bool,
}

/// What a file can hold.
#[derive(Debug)]
pub(super) enum Value {
    Panel(Box<Panel>),
    Board(Box<Board>),
    Supply(Box<PowerSupply>),
    Device(Box<Device>),
    Cable(Box<Cable>),
    Rules(Box<Rules>),
    Terms(Terms),
    Note(Note),
}

/// What a file was read as.
pub(super) type Bytes = Result<Vec<u8>, FileFault>;

/// Looks at a file that is no note.
pub(super) fn card(files: &Files, path: &str, bytes: &Bytes) -> Looked {
    let shown = files.shown(path);
    let (folder, _) = path.split_once('/').unwrap_or((path, ""));
    let Some(block) = block_of(folder) else {
        // What is no card's place holds a fault of its own, or nothing to read.
        let faults = bytes.as_ref().err().map(|fault| unread(&shown, fault));
        return Looked { faults: faults.into_iter().collect(), ..Looked::default() };
    };
    let text = match text(&shown, bytes) {
        Ok(text) => text,
        Err(fault) => return Looked { faults: vec![*fault], is_card: true, ..Looked::default() },
    };
    let mut sheet = Sheet::new(&shown, text);
    let mut looked = Looked { is_card: true, ..Looked::default() };
    match source::read(&shown, text) {
        Err(fault) => sheet.faults.push(*fault),
        Ok(root) => {
            shape::block(&mut sheet, &root, block);
            looked.id = identity(&mut sheet, &root, folder);
            looked.value = Some(value(&mut sheet, &root, folder)).filter(|_| sheet.faults.is_empty());
        }
    }
    looked.faults = sheet.faults;
    looked
}

/// Looks at a note of a card, given the cards.
pub(super) fn note(files: &Files, library: &Library, path: &str, bytes: &Bytes) -> Looked {
    let shown = files.shown(path);
    match text(&shown, bytes) {
        Err(fault) => Looked { faults: vec![*fault], ..Looked::default() },
        Ok(text) => {
            let (card, name) = of_note(path);
            let read = super::note::note(library.card(card), &shown, name, text);
            Looked { value: read.value.map(Value::Note), faults: read.faults, ..Looked::default() }
        }
    }
}

/// The card that the note at a path is on, and the note's name.
pub(super) fn of_note(path: &str) -> (&str, &str) {
    let mut parts = path.split('/').skip(1);
    (parts.next().unwrap_or_default(), parts.next().unwrap_or_default())
}

/// The text of a file.
pub(super) fn text<'b>(shown: &str, bytes: &'b Bytes) -> Result<&'b str, Box<Fault>> {
    let bytes = bytes.as_ref().map_err(|fault| Box::new(unread(shown, fault)))?;
    source::text_of(shown, bytes)
}

fn unread(shown: &str, fault: &FileFault) -> Fault {
    Fault::of_file(shown, &fault.message).with_help(&fault.help)
}

/// Builds what a file holds.
fn value(sheet: &mut Sheet<'_>, root: &Node, folder: &str) -> Value {
    match folder {
        "panels" => Value::Panel(Box::new(build::panel::panel(sheet, root))),
        "boards" => Value::Board(Box::new(build::board::board(sheet, root))),
        "supplies" => Value::Supply(Box::new(build::unit::supply(sheet, root))),
        "devices" => Value::Device(Box::new(build::device::device(sheet, root))),
        "cables" => Value::Cable(Box::new(build::cable::cable(sheet, root))),
        "rules" => Value::Rules(Box::new(build::rules::rules(sheet, root))),
        _ => Value::Terms(build::rules::terms(root)),
    }
}

/// `kind` fits the folder and `id` the file's name; gives a card's id.
fn identity(sheet: &mut Sheet<'_>, root: &Node, folder: &str) -> Option<(String, Span)> {
    if folder == "rules" {
        id_is_stem(sheet, root, "rules");
    }
    let (_, kind) = FOLDERS.iter().find(|(name, _)| *name == folder)?;
    kind_fits(sheet, root, folder, kind);
    id_is_stem(sheet, root, "id");
    let node = root.get("id")?;
    Some((node.text()?.to_owned(), node.span))
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

/// A file's name without its ending.
pub(super) fn stem(path: &str) -> &str {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// The id at `key` equals the file's stem.
pub(super) fn id_is_stem(sheet: &mut Sheet<'_>, root: &Node, key: &str) {
    let stem = stem(sheet.file).to_owned();
    let Some((node, id)) = root.get(key).and_then(|node| Some((node, node.text()?))) else { return };
    if id != stem && !id.trim().is_empty() {
        let message = format!("the id `{id}` is not the file's name, `{stem}`");
        sheet.fault(node.span, message, format!("write `{key}: {stem}`, or rename the file to `{id}.yaml`"));
    }
}
