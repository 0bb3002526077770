//! The same blanks as one form for a spreadsheet: single blanks on one sheet, and a sheet for each thing of which there
//! are several. Every blank stands with the survey's key that it is for, by which it is read back.

use super::{Cell, SheetView, Wanted, live, sheet};
use crate::pack::panel::{does, figures, right_fuse};
use crate::wording::colour_code;

/// A form.
#[derive(Debug, Clone, PartialEq)]
pub struct FormView {
    /// What it is a form of.
    pub title: String,
    /// What must be read first, line by line.
    pub first: Vec<String>,
    /// The single blanks, in the order of the sheet.
    pub fields: Vec<Field>,
    /// What there are several of.
    pub tables: Vec<Table>,
}

/// A single blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// When it is filled in.
    pub stage: String,
    /// What it is.
    pub what: String,
    /// What is written there already.
    pub value: String,
    /// The unit of a bare number.
    pub unit: String,
    /// How it is found out.
    pub how: String,
    /// The survey's key.
    pub key: String,
    /// The words that it takes.
    pub words: Vec<String>,
}

/// A table of blanks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// What its tab says.
    pub name: &'static str,
    /// Its columns.
    pub columns: Vec<Column>,
    /// What is written in its rows already; rows may be shorter than the columns.
    pub rows: Vec<Vec<String>>,
    /// How many rows have room, those above counted in.
    pub room: usize,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its head.
    pub head: &'static str,
    /// The survey's key; `readings mark` for the names of `readings`; empty for what is only to be read.
    pub key: &'static str,
    /// The unit of a bare number.
    pub unit: &'static str,
    /// How many letters wide.
    pub width: u16,
    /// The words that it takes.
    pub words: Vec<String>,
}

/// Columns that only say something.
fn said(head: &'static str, width: u16) -> Column {
    Column { head, key: "", unit: "", width, words: Vec::new() }
}

/// A column to write in.
fn blank(head: &'static str, key: &'static str, width: u16) -> Column {
    Column { key, ..said(head, width) }
}

impl Column {
    fn unit(self, unit: &'static str) -> Self {
        Self { unit, ..self }
    }

    fn takes<'w>(self, words: impl IntoIterator<Item = &'w str>) -> Self {
        Self { words: words.into_iter().map(str::to_string).collect(), ..self }
    }
}

/// The form of a panel's survey.
#[must_use]
pub fn form(wanted: &Wanted<'_>) -> FormView {
    let view = sheet(wanted);
    let first = [view.law.to_string()].into_iter().chain(view.cautions.clone());
    let stop = view.stop.iter().map(|line| format!("Stop and call for help: {line}"));
    FormView {
        title: view.title.clone(),
        first: first.chain(stop).chain(HOW.map(str::to_string)).collect(),
        fields: fields(&view),
        tables: vec![
            volts(wanted),
            fuses(wanted),
            cables(wanted),
            items(wanted),
            cores(wanted),
            loops(),
            loads(),
            new_items(wanted),
            settled(),
        ],
    }
}

const HOW: [&str; 3] = [
    "Write only into empty cells. What was not read stays empty: empty means not known. Write none where you looked and \
     there is none.",
    "A bare number has the unit that stands with its cell; any other unit is written behind it: 400 mA. Rows can be added; \
     the grey keys stay, for by them the form is read.",
    "Then: wirelore new survey ID --from sheet.xlsx",
];

/// The single blanks of a sheet.
fn fields(view: &SheetView) -> Vec<Field> {
    let mut fields = Vec::new();
    for stage in &view.stages {
        for row in stage.parts.iter().flat_map(|part| &part.rows) {
            let [what, blank, how] = row.as_slice() else { continue };
            let [key] = blank.keys.as_slice() else { continue };
            if what.strong {
                fields.push(field(&format!("{}. {}", stage.number, stage.title), what, blank, how, key));
            }
        }
    }
    fields.push(Field {
        stage: "8. Decided afterwards".into(),
        what: "Also removed".into(),
        value: String::new(),
        unit: String::new(),
        how: "what goes and hangs on no cable of this survey, with commas between; none: nothing goes".into(),
        key: "remove".into(),
        words: Vec::new(),
    });
    fields
}

fn field(stage: &str, what: &Cell, blank: &Cell, how: &Cell, key: &str) -> Field {
    let words = if blank.words.is_empty() { String::new() } else { format!("{}; ", blank.words.join(", ")) };
    Field {
        stage: stage.to_string(),
        what: what.text.clone(),
        value: blank.value.clone(),
        unit: blank.after.to_string(),
        how: format!("{words}{}", how.text),
        key: key.to_string(),
        words: blank.words.clone(),
    }
}

fn volts(wanted: &Wanted<'_>) -> Table {
    let columns = vec![
        blank("Mark", "readings mark", 10),
        said("What it does", 44),
        said("By the card", 30),
        blank("Volts read", "readings", 14).unit("V"),
    ];
    let terminals = wanted.panel.into_iter().flat_map(|panel| {
        panel
            .unit
            .terminals
            .iter()
            .filter(|t| live::is_read(panel, t))
            .map(|t| vec![t.mark.clone(), does(t), figures(t)])
    });
    table("Volts", columns, terminals.collect(), 30)
}

fn fuses(wanted: &Wanted<'_>) -> Table {
    let columns = vec![
        blank("Mark", "fuses fuse", 10),
        said("Right fuse", 24),
        said("Guards", 40),
        blank("As found: 1 A F, blown, bridged, missing, unknown", "fuses", 30),
    ];
    let fuses = wanted.panel.map_or(&[][..], |panel| panel.unit.fuses.as_slice());
    let row =
        |fuse: &crate::model::Fuse| vec![fuse.mark.clone(), right_fuse(fuse), fuse.guards.clone().unwrap_or_default()];
    table("Fuses", columns, fuses.iter().map(row).collect(), 6)
}

/// `C1`, `C2` …
fn names(wanted: &Wanted<'_>) -> impl Iterator<Item = String> {
    (1..=wanted.cables).map(|n| format!("C{n}"))
}

fn cables(wanted: &Wanted<'_>) -> Table {
    let types = wanted.library.cables.keys().map(String::as_str);
    let columns = vec![
        blank("Cable", "cables.cable", 8),
        blank("Type", "cables.type", 14).takes(types),
        blank("Goes to", "cables.to", 24),
        blank("Length", "cables.length", 10).unit("m"),
        blank("Longest, if not sure", "cables.length", 10).unit("m"),
        blank("Written on it, or none", "cables.label", 20),
        blank("AC volts, cores off", "cables.ac", 10).unit("V"),
    ];
    table("Cables", columns, names(wanted).map(|name| vec![name]).collect(), wanted.cables)
}

fn items(wanted: &Wanted<'_>) -> Table {
    let devices = || wanted.library.devices.keys().map(String::as_str);
    let columns = vec![
        blank("Cable", "cables.cable", 8),
        blank("Serves, or none", "cables.serves.item", 22),
        blank("Device card", "cables.serves.device", 20).takes(devices()),
        blank("Reach, none when it can't be", "cables.serves.reach", 16),
        blank("Old resistors at", "cables.serves.resistors.at", 12).takes(["none", "device", "panel"]),
        blank("End", "cables.serves.resistors.end", 9).unit("Ω"),
        blank("Alarm, or none", "cables.serves.resistors.alarm", 9).unit("Ω"),
        blank("Stays", "fit.keep", 10).takes(["keep", "remove"]),
        blank("Reaction", "fit.reaction", 10).takes(REACTIONS),
        blank("Shares with", "fit.share", 12),
        blank("Must or want", "fit.priority", 8).takes(PRIORITIES),
    ];
    table("Items", columns, names(wanted).map(|name| vec![name]).collect(), 2 * wanted.cables)
}

const REACTIONS: [&str; 4] = ["entry", "instant", "24h", "panic"];
const PRIORITIES: [&str; 2] = ["must", "want"];

/// A row for each colour that the widest cable has: what a cable lacks stays empty.
fn cores(wanted: &Wanted<'_>) -> Table {
    let columns = vec![
        blank("Cable", "cables.cable", 8),
        said("Code", 8),
        blank("Colour", "cables.cores colour", 16),
        blank("On: a mark, spare, broken, unknown, join J1; Z1 for ITEM", "cables.cores", 40),
    ];
    let colours = wanted.library.core_colours();
    let row =
        |name: &str, colour: &str| vec![name.to_string(), colour_code(colour).unwrap_or_default(), colour.to_string()];
    let rows: Vec<Vec<String>> = names(wanted)
        .flat_map(|name| colours.iter().map(move |colour| row(&name, colour)).collect::<Vec<_>>())
        .collect();
    let room = rows.len() + 10;
    table("Cores", columns, rows, room)
}

fn loops() -> Table {
    let columns = vec![
        blank("Cable", "cables.cable", 8),
        blank("One core", "cables.measured.cores", 14),
        blank("Other core", "cables.measured.cores", 14),
        blank("Loop, or open", "cables.measured.ohms", 14).unit("Ω"),
    ];
    table("Loops", columns, Vec::new(), 40)
}

fn loads() -> Table {
    let columns = vec![
        blank("What else the power source carries, or none", "loads.name", 36),
        blank("At rest", "loads.standby", 12).unit("mA"),
        blank("In alarm", "loads.alarm", 12).unit("mA"),
    ];
    table("Loads", columns, Vec::new(), 8)
}

fn new_items(wanted: &Wanted<'_>) -> Table {
    let columns = vec![
        blank("New item", "fit.item", 22),
        blank("Device card", "fit.device", 20).takes(wanted.library.devices.keys().map(String::as_str)),
        blank("Place: where a cable goes", "fit.place", 22),
        blank("Reaction", "fit.reaction", 10).takes(REACTIONS),
        blank("Shares with", "fit.share", 12),
        blank("Must or want", "fit.priority", 8).takes(PRIORITIES),
    ];
    table("New items", columns, Vec::new(), 12)
}

fn settled() -> Table {
    let columns = vec![
        blank("Finding", "settled.code", 18),
        blank("About", "settled.about", 14),
        blank("What was found", "settled.says", 50),
        blank("By", "settled.by", 8),
    ];
    table("Settled", columns, Vec::new(), 10)
}

/// A table with room for its rows at least.
fn table(name: &'static str, columns: Vec<Column>, rows: Vec<Vec<String>>, room: usize) -> Table {
    let room = room.max(rows.len());
    Table { name, columns, rows, room }
}
