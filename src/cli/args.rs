//! The commands and options as they are typed.

use super::figure::Figure;
use crate::model::How;
use crate::search::{Kind, Question};
use clap::{Args as Group, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;
use std::ffi::OsString;
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// Look up what every screw of an old wired alarm panel does, and work out the job that puts a new board in its
/// place while the cables in the walls stay.
#[derive(Debug, Parser)]
#[command(name = "wirelore", version, max_term_width = 100, disable_help_subcommand = true)]
#[command(after_help = "Exit code: 0 done; 1 faults in what was read, nothing found, or --strict and not ready; \
                        2 wrong usage, or a file or disk that can't be used.\n\nLocal codes and licensed practice \
                        come before anything printed here.")]
pub(super) struct Args {
    /// The folder with your cards; without it, the demo library inside the program
    #[arg(long, global = true, env = "WIRELORE_LIBRARY", value_name = "DIR")]
    library: Option<OsString>,
    /// Keep nothing in the cache folder and read nothing from it; the answers are the same
    #[arg(long, global = true)]
    pub(super) no_cache: bool,
    #[command(subcommand)]
    pub(super) command: Command,
}

impl Args {
    /// The library's folder; an empty name is none.
    pub(super) fn library(&self) -> Option<PathBuf> {
        self.library.as_ref().filter(|dir| !dir.is_empty()).map(PathBuf::from)
    }
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Find a terminal, fuse, board marking or note by its mark or by words
    ///
    /// Marks keep their sign: A+ and A- are different screws. Type them as printed, `wirelore find A-`; words work
    /// too: `wirelore find strobe trigger`.
    Find(Find),
    /// Show a card: every terminal in board order, fuses, siren wiring, cautions, notes
    Show(Show),
    /// Check cards and surveys: file, line, what is wrong, what to write
    ///
    /// Without a path, the whole library with its surveys. A survey is checked against the library; so is one card.
    Check(Check),
    /// Work out job packs: what goes where, what the meter must show, what is not known
    ///
    /// Each survey becomes DIR/ID/pack.md, pack.html and pack.json, with DIR/index.html over them all. A pack that is
    /// not ready says so on its first line, and why.
    Pack(Pack),
    /// Build the packs of the demo library and say where to look
    Demo(Demo),
    /// Write down what a job taught about a card
    ///
    /// Each note is a new file in the library's `notes` folder; nobody's note is ever changed.
    Note(Note),
    /// Work out one figure: volts at the far end, a loop, a battery, a fuse
    ///
    /// The formulas are those of the packs; each figure is printed with its formula and the numbers put into it. A
    /// quantity has its unit: "350 mA", "15 m", 4k7.
    #[command(subcommand)]
    Figure(Figure),
    /// Start a new card, survey or library from a commented file
    #[command(subcommand)]
    New(New),
}

#[derive(Debug, Group)]
pub(super) struct Find {
    /// A mark as printed, or words
    #[arg(required = true, value_name = "WORDS")]
    words: Vec<OsString>,
    /// Only facts of this card
    #[arg(long, value_name = "ID")]
    card: Option<String>,
    /// Only these kinds, with commas between: card, terminal, fuse, siren, zone, link, marking, caution, note
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = kind)]
    kind: Vec<Kind>,
    /// At most so many hits
    #[arg(long, value_name = "N", default_value = "10")]
    limit: NonZeroUsize,
    /// Look for changes only in the cards that are shown, not in the whole library
    #[arg(long)]
    pub(super) no_fresh: bool,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

impl Find {
    /// The question; bytes that are not text are replaced, for any bytes are a valid question.
    pub(super) fn question(&self) -> Question {
        let words: Vec<_> = self.words.iter().map(|w| w.to_string_lossy()).collect();
        Question { words: words.join(" "), card: self.card.clone(), kinds: self.kind.clone(), limit: self.limit.get() }
    }
}

#[derive(Debug, Group)]
pub(super) struct Show {
    /// The card's id, as in its file's name
    #[arg(value_name = "CARD")]
    pub(super) card: String,
}

#[derive(Debug, Group)]
pub(super) struct Check {
    /// Card files, survey files or folders
    #[arg(value_name = "PATH")]
    pub(super) paths: Vec<PathBuf>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(super) struct Pack {
    /// A survey file, a folder of surveys, or the id of a survey in the library
    #[arg(required = true, value_name = "SURVEY")]
    pub(super) surveys: Vec<PathBuf>,
    /// The folder for the packs
    #[arg(short, long, value_name = "DIR", default_value = "packs")]
    pub(super) out: PathBuf,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(super) templates: Option<PathBuf>,
    /// End with exit code 1 when a pack is not ready
    #[arg(long)]
    pub(super) strict: bool,
    /// A date to print on the packs, YYYY-MM-DD; without it, none is printed
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(super) date: Option<Date>,
    /// How many packs to work on at once; without it, as many as the machine can
    #[arg(long, value_name = "N")]
    pub(super) threads: Option<NonZeroUsize>,
}

#[derive(Debug, Group)]
pub(super) struct Demo {
    /// The folder for the packs
    #[arg(short, long, value_name = "DIR", default_value = "packs")]
    pub(super) out: PathBuf,
}

#[derive(Debug, Group)]
pub(super) struct Note {
    /// The card that the note is about
    #[arg(value_name = "CARD")]
    pub(super) card: String,
    /// What the job taught, in a sentence or more
    #[arg(value_name = "TEXT")]
    pub(super) text: String,
    /// The terminal, fuse or link it is about; without it, the whole card
    #[arg(long, value_name = "MARK", allow_hyphen_values = true)]
    pub(super) about: Option<String>,
    /// The job's number
    #[arg(long, value_name = "JOB")]
    pub(super) job: Option<String>,
    /// Who writes it
    #[arg(long, value_name = "INITIALS")]
    pub(super) by: Option<String>,
    /// How it is known
    #[arg(long, value_enum)]
    pub(super) how: Option<HowWord>,
    /// The day it was seen, YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(super) date: Option<Date>,
}

#[derive(Debug, Subcommand)]
pub(super) enum New {
    /// A card to fill in: panel, board, device, cable or supply
    Card {
        /// What it is a card of
        #[arg(value_enum)]
        kind: CardKind,
        /// Its id: lower-case letters, digits and hyphens
        id: String,
    },
    /// A survey to fill in, in the library's `surveys` folder; without --library, in the folder you are in
    Survey {
        /// Its id: lower-case letters, digits and hyphens
        id: String,
    },
    /// A library of your own, with the generic devices, cables, terms and rules in it
    Library {
        /// The folder to make
        dir: PathBuf,
    },
}

/// How a note's fact is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum HowWord {
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
    pub(super) fn how(self) -> How {
        match self {
            Self::Measured => How::Measured,
            Self::Manual => How::Manual,
            Self::Label => How::Label,
            Self::Hearsay => How::Hearsay,
        }
    }
}

/// What a card is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum CardKind {
    /// An old control unit
    Panel,
    /// A new control unit
    Board,
    /// A detector, contact, sounder, keypad …
    Device,
    /// A type of cable
    Cable,
    /// A boxed power supply
    Supply,
}

fn kind(word: &str) -> Result<Kind, String> {
    Kind::of(word.trim()).ok_or_else(|| {
        let all: Vec<&str> = Kind::ALL.into_iter().map(Kind::word).collect();
        format!("the kinds are {}", all.join(", "))
    })
}

fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| "a date is a year, a month and a day, for example 2026-11-03".to_string())
}
