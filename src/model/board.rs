//! The new control unit.

use super::{Cite, Fires, LoopState, Mark, Unit, Wiring};
use crate::units::{Amps, Ohms, Percent, Volts, Window};
use serde::{Deserialize, Serialize};

/// A new board.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Board {
    /// Screws, fuses, power of its own.
    pub unit: Unit,
    /// Where it is fed and what it draws; `None`: not known.
    pub feed: Option<Feed>,
    /// Its outputs for devices, in card order.
    pub supplies: Vec<Supply>,
    /// Its inputs, in card order.
    pub inputs: Vec<Input>,
    /// Its end-of-line resistors.
    pub eol: Eol,
    /// What it reports by the resistance across an input.
    pub bands: Bands,
    /// Its outputs, in card order.
    pub outputs: Vec<Output>,
}

impl Board {
    /// The input of this name.
    #[must_use]
    pub fn input(&self, name: &str) -> Option<&Input> {
        self.inputs.iter().find(|i| i.input == name)
    }
}

/// Where a board is fed and what it draws.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Feed {
    /// Positive and negative terminal.
    pub terminals: Option<(Mark, Mark)>,
    /// What it must be fed.
    pub volts: Option<Window<Volts>>,
    /// What it draws at rest.
    pub standby: Option<Amps>,
    /// What it draws in alarm; the card's default, the same as standby, is filled in.
    pub alarm: Option<Amps>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// An output of the board that feeds devices.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Supply {
    /// Its name.
    pub supply: String,
    /// The positive terminal.
    pub positive: Mark,
    /// The negative terminal.
    pub negative: Mark,
    /// What it gives continuously.
    pub limit: Option<Amps>,
    /// What it gives in alarm; `None`: the same as `limit`.
    pub alarm_limit: Option<Amps>,
    /// Its fuse.
    pub fuse: Option<Mark>,
    /// What it may feed.
    pub feeds: Feeds,
    /// What it loses between the source and its terminals.
    pub drop: Volts,
    /// Whether the card gives `drop` (not given: 0 V is assumed).
    pub drop_given: bool,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// What a supply may feed. Items with triggers count as sounders.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Feeds {
    /// Only items without triggers.
    Detectors,
    /// Only items with triggers.
    Sounders,
    /// Anything.
    #[default]
    Any,
}

/// An input of the board.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Input {
    /// Its name.
    pub input: String,
    /// Where the loop leaves.
    pub out: Mark,
    /// Where it returns.
    pub back: Mark,
    /// The wirings it can watch.
    pub accepts: Vec<Wiring>,
    /// What it may be used for.
    pub usage: InputUse,
    /// Whether its second terminal is the board's negative.
    pub returns_negative: bool,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// What an input may be used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum InputUse {
    /// Alarm loops only.
    Alarm,
    /// The tamper loop only.
    Tamper,
    /// Either.
    #[default]
    Any,
}

/// The end-of-line resistors that a board wants.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Eol {
    /// For single end-of-line.
    pub single: Option<Ohms>,
    /// For double end-of-line.
    pub double: Option<DoubleEol>,
    /// The resistors' tolerance; `None`: not known.
    pub tolerance: Option<Percent>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// The two resistors of double end-of-line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DoubleEol {
    /// In series with both contacts.
    pub end: Ohms,
    /// Across the alarm contact.
    pub alarm: Ohms,
}

/// The bands of each wiring, in rising order; `None`: not known.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Bands {
    /// For closed loops.
    pub closed_loop: Option<Vec<Band>>,
    /// For single end-of-line.
    pub single_eol: Option<Vec<Band>>,
    /// For double end-of-line.
    pub double_eol: Option<Vec<Band>>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

impl Bands {
    /// The bands of a wiring.
    #[must_use]
    pub fn of(&self, wiring: Wiring) -> Option<&[Band]> {
        match wiring {
            Wiring::ClosedLoop => self.closed_loop.as_deref(),
            Wiring::SingleEol => self.single_eol.as_deref(),
            Wiring::DoubleEol => self.double_eol.as_deref(),
        }
    }
}

/// A band of resistances that report one state: from inclusive, to exclusive.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Band {
    /// What is reported.
    pub state: LoopState,
    /// The low end; `None`: from nothing.
    pub from: Option<Ohms>,
    /// The high end; `None`: without end.
    pub to: Option<Ohms>,
}

/// An output that fires things.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Output {
    /// Its name.
    pub output: String,
    /// What it is made of.
    pub kind: OutputKind,
    /// What it can carry; `None`: not known.
    pub limit: Option<Amps>,
    /// The resistor to positive that it has built in; `Absent`: none.
    pub pull_up: super::Fact<Ohms>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// What an output is made of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum OutputKind {
    /// Switches its terminal to negative.
    OpenCollector {
        /// The terminal.
        terminal: Mark,
    },
    /// A dry change-over contact.
    Relay {
        /// The moving contact.
        common: Mark,
        /// Closed when it fires.
        normally_open: Option<Mark>,
        /// Opened when it fires.
        normally_closed: Option<Mark>,
    },
}

impl Output {
    /// The terminal on which a trigger core lands, and the contact's name, when this output can fire that way.
    #[must_use]
    pub fn contact_for(&self, fires: Fires) -> Option<(&Mark, &'static str)> {
        match &self.kind {
            OutputKind::OpenCollector { terminal } => {
                (fires == Fires::NegativeApplied).then_some((terminal, "open-collector"))
            }
            OutputKind::Relay { normally_open, normally_closed, .. } => {
                if fires.is_applied() {
                    normally_open.as_ref().map(|mark| (mark, "normally-open"))
                } else {
                    normally_closed.as_ref().map(|mark| (mark, "normally-closed"))
                }
            }
        }
    }
}
