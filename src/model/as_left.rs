//! What was read when the job was commissioned.

use crate::units::{Amps, Ohms, Volts};
use jiff::civil::Date;

/// A visit at which readings were taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// When.
    pub date: Date,
    /// By whom.
    pub by: Option<String>,
    /// With which meter.
    pub meter: Option<String>,
    /// The readings, as they were written.
    pub readings: Vec<AsLeft>,
}

/// A reading of the test sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct AsLeft {
    /// Its number on the sheet.
    pub row: String,
    /// What the sheet said there.
    pub what: String,
    /// What the meter showed; `None`: nothing was written.
    pub read: Option<Read>,
    /// Whether its box was ticked.
    pub done: bool,
}

/// What a meter showed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Read {
    /// Volts.
    Volts(Volts),
    /// Amperes.
    Amps(Amps),
    /// Ohms.
    Ohms(Ohms),
    /// Over range on ohms.
    Open,
}

impl Read {
    /// The value in its base unit, and that unit; infinite when over range.
    #[must_use]
    pub fn value(self) -> (f64, &'static str) {
        match self {
            Self::Volts(volts) => (volts.get(), "V"),
            Self::Amps(amps) => (amps.get(), "A"),
            Self::Ohms(ohms) => (ohms.get(), "Ω"),
            Self::Open => (f64::INFINITY, "Ω"),
        }
    }
}
