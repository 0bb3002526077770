//! What is typed after `wirelore note`.

use super::typed::date;
use crate::model::How;
use clap::{Args as Group, ValueEnum};
use jiff::civil::Date;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Note {
    /// The card that the note is about
    #[arg(value_name = "CARD")]
    pub(in crate::cli) card: String,
    /// What the job taught, in a sentence or more; `-` reads standard input; without it, your editor
    #[arg(value_name = "TEXT")]
    pub(in crate::cli) text: Option<String>,
    /// The terminal, fuse or link it is about; without it, the whole card
    #[arg(long, value_name = "MARK", allow_hyphen_values = true)]
    pub(in crate::cli) about: Option<String>,
    /// The job's number
    #[arg(long, value_name = "JOB")]
    pub(in crate::cli) job: Option<String>,
    /// Who writes it; without it, the initials in `WIRELORE_BY`, or those that the login name shows
    #[arg(long, value_name = "INITIALS")]
    pub(in crate::cli) by: Option<String>,
    /// How it is known
    #[arg(long, value_enum)]
    pub(in crate::cli) how: Option<HowWord>,
    /// What was measured is what the card says of the mark
    #[arg(long, requires = "about", conflicts_with = "disagrees")]
    agrees: bool,
    /// What was measured is not what the card says of the mark
    #[arg(long, requires = "about")]
    disagrees: bool,
    /// A folder of surveys besides the library's own: the names and addresses of their sites are refused too
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) surveys: Option<PathBuf>,
    /// The day it was seen, YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(in crate::cli) date: Option<Date>,
}

impl Note {
    /// Whether it agrees with the card, where it says so.
    pub(in crate::cli) fn agreement(&self) -> Option<bool> {
        (self.agrees || self.disagrees).then_some(self.agrees)
    }
}

/// How a note's fact is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum HowWord {
    /// Somebody put a meter on it
    Measured,
    /// The maker's paper says so
    Manual,
    /// It is printed on the thing itself
    Label,
    /// Somebody said so
    Hearsay,
}

impl HowWord {
    /// The same in the model.
    pub(in crate::cli) fn how(self) -> How {
        match self {
            Self::Measured => How::Measured,
            Self::Manual => How::Manual,
            Self::Label => How::Label,
            Self::Hearsay => How::Hearsay,
        }
    }
}
