//! What a checked card and a checked job are. Only `check` makes these values, so nothing later checks them
//! again: every mark a block names is a terminal of its card, every reference has its target, every window
//! has its low end first.

mod as_left;
mod board;
mod cable;
mod device;
mod evidence;
mod fact;
mod job;
mod library;
mod panel;
mod picture;
mod rules;
mod survey;
mod today;
mod unit;

pub use as_left::{AsLeft, Read, Visit};
pub use board::{Band, Bands, Board, DoubleEol, Eol, Feed, Feeds, Input, InputUse, Output, OutputKind, Supply};
pub use cable::{Cable, Conductor};
pub use device::{Contact, ContactKind, Device, DeviceClass, DeviceSupply, DeviceTrigger, Reconnect, Returns};
pub use evidence::Evidence;
pub use fact::{Cite, Fact, How, Standing};
pub use job::{Item, Job, JobCable, JobCore, PowerSource, Served};
pub use library::{Card, Library, Note, PowerSupply, Terms};
pub use panel::{Pair, Panel, Siren, SirenTamper, SirenTrigger, Zone};
pub use picture::NotePicture;
pub use rules::{Grade, Rules, TemperaturePoint};
pub use survey::{
    BatteryState, CoreUse, FitItem, FuseFound, LoadTest, MainsOff, Measured, OldBattery, Power, Priority, Reach,
    Reaction, Resistors, ResistorsAt, Settled, Survey, SurveyCable, SurveyCore, SurveyLoad,
};
pub use today::Function;
pub use unit::{
    Fuse, FuseSpeed, Group, Keypad, Link, Mains, Polarity, PowerBlock, SourceText, StandbyBattery, Terminal, Unit,
};

/// What is printed beside a terminal or a fuse.
pub type Mark = String;
/// The stem of a card's file.
pub type CardId = String;
/// A core's colour as a word: `red`, `green/yellow`.
pub type Colour = String;

/// How an output must act to fire a sounder or a strobe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fires {
    /// Negative comes on when it fires.
    NegativeApplied,
    /// Negative is there at rest and goes away.
    NegativeRemoved,
    /// Positive comes on when it fires.
    PositiveApplied,
    /// Positive is there at rest and goes away.
    PositiveRemoved,
}

impl Fires {
    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NegativeApplied => "negative-applied",
            Self::NegativeRemoved => "negative-removed",
            Self::PositiveApplied => "positive-applied",
            Self::PositiveRemoved => "positive-removed",
        }
    }

    /// Whether it is the negative that is switched.
    #[must_use]
    pub fn is_negative(self) -> bool {
        matches!(self, Self::NegativeApplied | Self::NegativeRemoved)
    }

    /// Whether firing makes the connection, rather than breaks it.
    #[must_use]
    pub fn is_applied(self) -> bool {
        matches!(self, Self::NegativeApplied | Self::PositiveApplied)
    }
}

/// How a loop is wired and watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wiring {
    /// Normally closed contacts and nothing else.
    ClosedLoop,
    /// One end-of-line resistor.
    SingleEol,
    /// Two resistors: alarm and tamper on one pair.
    DoubleEol,
}

impl Wiring {
    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::ClosedLoop => "closed-loop",
            Self::SingleEol => "single-eol",
            Self::DoubleEol => "double-eol",
        }
    }
}

/// What a loop reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LoopState {
    /// At rest.
    Normal,
    /// A contact has opened.
    Alarm,
    /// The tamper contact has opened.
    Tamper,
    /// The pair is shorted.
    Short,
}

impl LoopState {
    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::Alarm => "alarm",
            Self::Tamper => "tamper",
            Self::Short => "short",
        }
    }
}
