//! All cards, notes, rules and rings of words.

use super::{Board, Cable, CardId, Device, Fact, How, Mark, NotePicture, Panel, PowerBlock, Rules, Unit};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};

/// A checked library: only cards without faults are in it.
#[derive(Debug, Clone, Default)]
pub struct Library {
    /// The old panels.
    pub panels: BTreeMap<CardId, Panel>,
    /// The new boards.
    pub boards: BTreeMap<CardId, Board>,
    /// The devices.
    pub devices: BTreeMap<CardId, Device>,
    /// The cable types.
    pub cables: BTreeMap<CardId, Cable>,
    /// The boxed power supplies.
    pub supplies: BTreeMap<CardId, PowerSupply>,
    /// The rules.
    pub rules: BTreeMap<String, Rules>,
    /// The notes of each card, oldest first.
    pub notes: BTreeMap<CardId, Vec<Note>>,
    /// Rings of words that stand for each other.
    pub terms: Terms,
    /// The files left out because they have faults, as paths below the library's folder: `panels/ID.yaml`.
    pub faulty: BTreeSet<String>,
    /// The ids that files give themselves which are named otherwise: such a file has a fault, and can give one to the
    /// card whose id it is.
    pub claimed: BTreeSet<String>,
}

impl Library {
    /// The card of this id, of whatever kind but cable types and rules.
    #[must_use]
    pub fn card(&self, id: &str) -> Option<Card<'_>> {
        self.panels
            .get(id)
            .map(Card::Panel)
            .or_else(|| self.boards.get(id).map(Card::Board))
            .or_else(|| self.supplies.get(id).map(Card::Supply))
            .or_else(|| self.devices.get(id).map(Card::Device))
            .or_else(|| self.cables.get(id).map(Card::Cable))
    }

    /// Every core colour of the cable cards: those of the card with most cores first, in its order.
    #[must_use]
    pub fn core_colours(&self) -> Vec<&str> {
        let mut cards: Vec<&Cable> = self.cables.values().collect();
        cards.sort_by_key(|card| std::cmp::Reverse(card.cores.len()));
        let mut colours: Vec<&str> = Vec::new();
        for colour in cards.into_iter().flat_map(|card| &card.cores) {
            if !colours.contains(&colour.as_str()) {
                colours.push(colour);
            }
        }
        colours
    }

    /// The notes of a card, oldest first.
    #[must_use]
    pub fn notes_of(&self, id: &str) -> &[Note] {
        self.notes.get(id).map_or(&[], Vec::as_slice)
    }
}

/// Any card.
#[derive(Debug, Clone, Copy)]
pub enum Card<'a> {
    /// An old panel.
    Panel(&'a Panel),
    /// A new board.
    Board(&'a Board),
    /// A boxed power supply.
    Supply(&'a PowerSupply),
    /// A device.
    Device(&'a Device),
    /// A cable type.
    Cable(&'a Cable),
}

impl<'a> Card<'a> {
    /// The part with screws, where it has one.
    #[must_use]
    pub fn unit(self) -> Option<&'a Unit> {
        match self {
            Self::Panel(panel) => Some(&panel.unit),
            Self::Board(board) => Some(&board.unit),
            Self::Supply(supply) => Some(&supply.unit),
            Self::Device(_) | Self::Cable(_) => None,
        }
    }

    /// Every mark that a note can be about: terminals, fuses, links.
    #[must_use]
    pub fn marks(self) -> Vec<&'a str> {
        let Some(unit) = self.unit() else { return Vec::new() };
        let terminals = unit.terminals.iter().map(|t| t.mark.as_str());
        let fuses = unit.fuses.iter().map(|f| f.mark.as_str());
        terminals.chain(fuses).chain(unit.links.iter().map(|l| l.mark.as_str())).collect()
    }
}

/// A boxed power supply.
#[derive(Debug, Clone, Default)]
pub struct PowerSupply {
    /// Screws, fuses, power.
    pub unit: Unit,
}

impl PowerSupply {
    /// What it can feed.
    #[must_use]
    pub fn power(&self) -> &Fact<PowerBlock> {
        &self.unit.power
    }
}

/// A note that a job left on a card.
#[derive(Debug, Clone)]
pub struct Note {
    /// The file's name.
    pub file: String,
    /// The mark it is about; `None`: the whole card.
    pub about: Option<Mark>,
    /// When it was written.
    pub date: Option<Date>,
    /// By whom.
    pub by: Option<String>,
    /// On which job.
    pub job: Option<String>,
    /// How it is known.
    pub how: Option<How>,
    /// Whether what was measured is what the card says of the mark; only where it was measured and is about a mark.
    pub agrees: Option<bool>,
    /// Its text, Markdown.
    pub text: String,
    /// The pictures in its text, in order.
    pub pictures: Vec<NotePicture>,
}

/// Rings of words that stand for each other in a search.
#[derive(Debug, Clone, Default)]
pub struct Terms {
    /// The rings.
    pub rings: Vec<Vec<String>>,
}
