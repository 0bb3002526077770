//! The survey sheet: blanks in the order in which one surveys, with what the panel's card knows already in them. Every
//! key of the survey's format has its blank here, once; a test walks the table of keys.

mod battery;
mod before_lid;
mod cables;
mod cell;
mod dead;
mod desk;
pub mod form;
mod hangs;
mod live;
mod safety;
mod sounder;

pub use cell::{Cell, Part, Stage};

use super::siren::siren;
use crate::model::{Board, Library, Panel};
use serde::Serialize;

/// A survey sheet as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetView {
    /// What it is a sheet of.
    pub title: String,
    /// What is printed on the panel, for telling that it is the right one; empty when nothing is known.
    pub markings: String,
    /// Whether the panel has a card; without one, its rows are blank.
    pub known: bool,
    /// How it is filled in.
    pub how: Vec<&'static str>,
    /// The sentence that stands above everything.
    pub law: &'static str,
    /// The cautions of this work, then those of the panel's card.
    pub cautions: Vec<String>,
    /// When to stop and call for help.
    pub stop: Vec<&'static str>,
    /// The blanks, in the order in which one surveys.
    pub stages: Vec<Stage>,
}

/// What a sheet is for.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The cards.
    pub library: &'a Library,
    /// The panel's card; `None`: it has none, and its rows are blank.
    pub panel: Option<&'a Panel>,
    /// What the panel was called by the one who asked.
    pub name: &'a str,
    /// The new board, where it is decided already.
    pub board: Option<&'a Board>,
    /// How many cables have blanks.
    pub cables: usize,
}

impl Wanted<'_> {
    /// The panel as a person says it.
    fn panel_name(&self) -> String {
        self.panel.map_or_else(|| self.name.to_string(), |panel| panel.unit.name())
    }
}

/// How many cables have blanks when nobody says: one for each zone, one for the sounder, one for the keypad.
#[must_use]
pub fn usual_cables(panel: Option<&Panel>) -> usize {
    const UNKNOWN: usize = 8;
    panel.map_or(UNKNOWN, |panel| panel.zones.len() + 2).clamp(4, 40)
}

const HOW: [&str; 4] = [
    "Write what is read, with its unit. What was not read stays blank: blank means not known, and nobody will guess it.",
    "Write none where you looked and there is none: not known, none and not asked are three different things.",
    "Note marks and colours as they are seen. Neither says what a core does.",
    "Afterwards type it into survey.yaml beside this sheet, which has the same order, and run wirelore check on it.",
];

/// The survey sheet of a panel.
#[must_use]
pub fn sheet(wanted: &Wanted<'_>) -> SheetView {
    let stages = [
        before_lid::stage(wanted),
        live::stage(wanted),
        dead::stage(wanted),
        cables::stage(wanted),
        battery::stage(wanted),
        sounder::stage(wanted),
        hangs::stage(wanted),
        desk::stage(wanted),
    ];
    SheetView {
        title: wanted.panel_name(),
        markings: wanted.panel.map(|panel| panel.unit.markings.join(", ")).unwrap_or_default(),
        known: wanted.panel.is_some(),
        how: HOW.to_vec(),
        law: super::safety::LAW,
        cautions: safety::cautions(wanted.panel),
        stop: safety::stop(),
        stages: stages.into_iter().zip(1..).map(|(stage, number)| Stage { number, ..stage }).collect(),
    }
}
