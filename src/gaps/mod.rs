//! What a library does not know yet, in order of harm: what can sound a sounder at head height comes first, what only
//! grows old last.

mod conflicts;
mod fuses;
mod mains;
mod notes;
mod relied;
mod siren;
mod unsure;

pub use relied::Relied;

use crate::model::{CardId, Library, Mark, Unit};
use jiff::civil::Date;

/// What kind of thing is not known, the most harmful first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// How a sounder is wired and fired.
    Siren,
    /// What holds a self-activating sounder silent.
    HoldOff,
    /// Which screws carry mains.
    Mains,
    /// What a fuse is, or which one guards something.
    Fuse,
    /// Facts without a good source that packs have relied on.
    Unsure,
    /// Cards on which no job has left a note.
    NoNote,
    /// Notes that are older than two years.
    OldNote,
    /// Notes that disagree with the card, or with each other.
    Conflict,
}

impl Kind {
    /// Every kind, the most harmful first.
    pub const ALL: [Self; 8] = [
        Self::Siren,
        Self::HoldOff,
        Self::Mains,
        Self::Fuse,
        Self::Unsure,
        Self::NoNote,
        Self::OldNote,
        Self::Conflict,
    ];

    /// Its word for another program.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Siren => "siren-wiring",
            Self::HoldOff => "hold-off",
            Self::Mains => "mains",
            Self::Fuse => "fuse",
            Self::Unsure => "unsure",
            Self::NoNote => "no-note",
            Self::OldNote => "old-note",
            Self::Conflict => "conflict",
        }
    }

    /// Its heading.
    #[must_use]
    pub fn heading(self) -> &'static str {
        match self {
            Self::Siren => "Siren wiring",
            Self::HoldOff => "Hold-off",
            Self::Mains => "Mains terminals",
            Self::Fuse => "Fuses",
            Self::Unsure => "Known from a label, from hearsay or from nothing, and relied on by packs",
            Self::NoNote => "Cards without a note",
            Self::OldNote => "Notes older than two years",
            Self::Conflict => "Notes that disagree",
        }
    }

    /// What settles it.
    #[must_use]
    pub fn settles(self) -> &'static str {
        match self {
            Self::Siren => {
                "With its own battery isolated, trace every core of the sounder's cable; measure each screw at rest and \
                 while the panel fires"
            }
            Self::HoldOff => {
                "Look at the sounder's card and cable: which screw feeds it, and what it does when that is lost"
            }
            Self::Mains => "Isolate, prove dead, then read the mains block and follow its leads",
            Self::Fuse => "Isolate, take the fuse out, read its cap, and follow what it guards",
            Self::Unsure => {
                "Measure it on the next job: `wirelore note CARD TEXT --about MARK --how measured --agrees`"
            }
            Self::NoNote => "Write down what the next job teaches: `wirelore note CARD TEXT`",
            Self::OldNote => "See on the next job whether it still holds, and write a new note",
            Self::Conflict => "Measure it again, then correct the card or find out what differs between the units",
        }
    }
}

/// One thing that is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gap {
    /// What kind of thing.
    pub kind: Kind,
    /// The card.
    pub card: CardId,
    /// The mark, where it is about one.
    pub about: Option<Mark>,
    /// What is not known.
    pub says: String,
    /// How many surveys rest on it.
    pub packs: usize,
}

/// What is looked at to find gaps.
#[derive(Debug, Clone, Copy)]
struct View<'a> {
    library: &'a Library,
    relied: &'a Relied,
    today: Option<Date>,
}

/// Everything that the cards of a library do not know, in order of harm; of one kind, what most surveys rest on first,
/// then by card, then as the card lists it. Without a day, no note is old.
#[must_use]
pub fn gaps(library: &Library, relied: &Relied, today: Option<Date>) -> Vec<Gap> {
    let view = View { library, relied, today };
    let rules = [siren::find, mains::find, fuses::find, unsure::find, notes::find, conflicts::find];
    let mut found: Vec<Gap> = rules.into_iter().flat_map(|rule| rule(&view)).collect();
    found.sort_by(|a, b| (a.kind, b.packs, &a.card).cmp(&(b.kind, a.packs, &b.card)));
    found
}

impl View<'_> {
    /// Every card with screws, panels first.
    fn units(&self) -> impl Iterator<Item = &Unit> {
        let panels = self.library.panels.values().map(|panel| &panel.unit);
        let boards = self.library.boards.values().map(|board| &board.unit);
        panels.chain(boards).chain(self.library.supplies.values().map(|supply| &supply.unit))
    }

    /// A gap of a card as a whole, or of a block of it.
    fn gap(&self, kind: Kind, card: &str, says: impl Into<String>) -> Gap {
        Gap { kind, card: card.to_owned(), about: None, says: says.into(), packs: self.relied.card(card) }
    }

    /// A gap about a mark.
    fn about(&self, kind: Kind, card: &str, mark: &str, says: impl Into<String>) -> Gap {
        Gap { about: Some(mark.to_owned()), ..self.gap(kind, card, says) }
    }
}
