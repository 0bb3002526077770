//! The commands and options as they are typed.

use super::figure::Figure;
use crate::check::SCHEMAS;
use crate::model::How;
use crate::search::{Kind, Question};
use clap::builder::PossibleValuesParser;
use clap::{Args as Group, CommandFactory, Parser, Subcommand, ValueEnum};
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

/// What clap says of `find` without words where nobody can be asked for them.
pub(super) fn words_missing(args: Vec<OsString>) -> Option<clap::Error> {
    let command = Args::command();
    let strict = command.mut_subcommand("find", |find| find.mut_arg("words", |words| words.required(true)));
    strict.try_get_matches_from(args).err()
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Find a terminal, fuse, board marking or note by its mark or by words
    ///
    /// Type a mark as it is printed or as you say it, `wirelore find A-`, `find t/r`, `find hold off plus`, or ask in
    /// words: `find F2 blown`, `find strobe mb6`. A+ and A- are different screws: a hit on the other side stands below
    /// all others and says so. Without words, on a terminal, a prompt searches as you type.
    Find(Find),
    /// Show a card: every terminal in board order, fuses, siren wiring, cautions, notes
    Show(Show),
    /// Check cards and surveys: file, line, what is wrong, what to write
    ///
    /// Without a path, the whole library with its surveys. A survey is checked against the library; so is one card.
    Check(Check),
    /// Print a survey sheet with blanks in the order in which one surveys, and the survey file to type it into
    ///
    /// Writes DIR/PANEL/sheet.html to print, sheet.md, and survey.yaml, which is left alone once something was typed
    /// into it. The panel's terminals, fuses and siren wiring are in them already; a panel that is not in the library
    /// gets the generic sheet, with blank rows, and that is said (exit code 0 all the same).
    Sheet(Sheet),
    /// Work out job packs: what goes where, what the meter must show, what is not known
    ///
    /// Each survey becomes DIR/ID/pack.md, pack.html and pack.json, with DIR/index.html over them all. A pack that is
    /// not ready says so on its first line, and why.
    Pack(Pack),
    /// Build the packs of the demo library and say where to look
    Demo(Demo),
    /// Write the library, and packs, into one page for a phone that has no network
    ///
    /// One file that needs nothing else: search as `find` does it, the cards, the calculators of `figure`. With packs,
    /// their tick boxes and test sheets to fill in; what was filled in is saved as a file for `wirelore readings`.
    Pocket(Pocket),
    /// Bring readings that were typed on the phone back into their survey
    ///
    /// FILE is what the page of `wirelore pocket` saved. Its readings go into the survey's `as_left`, and nothing else in
    /// the file changes; each is held against the window of the survey's test sheet. Exit code 1 when one is outside.
    Readings(Readings),
    /// Write down what a job taught about a card
    ///
    /// Each note is a new file in the library's `notes` folder; nobody's note is ever changed. Everybody reads it, so
    /// names and addresses of sites, telephone numbers, mail addresses, postcodes, codes and monitoring account numbers
    /// are refused.
    Note(Note),
    /// Correct one fact of a card in its file, and nothing else
    ///
    /// MARK is a terminal, fuse or link by its mark, or another place on the card: `siren`, `power.battery`, `zones.1`,
    /// `siren.triggers.strobe`, `card` for what is said of the whole card. A list is typed as a card writes it:
    /// volts="[13.2 V, 14.2 V]". Comments, order and spacing stay; the card is checked before its file is replaced,
    /// and the difference is printed.
    Set(Set),
    /// List what jobs taught, newest first
    Notes(Notes),
    /// List what the library does not know yet, the most harmful first
    ///
    /// Siren wiring, hold-off, mains terminals, fuses, facts without a good source that packs rest on, cards without a
    /// note, notes older than two years, notes that disagree; each with what settles it.
    Gaps(Gaps),
    /// Work out one figure: volts at the far end, a loop, a battery, a fuse
    ///
    /// The formulas are those of the packs; each figure is printed with its formula and the numbers put into it. A
    /// quantity has its unit: "350 mA", "15 m", 4k7.
    #[command(subcommand)]
    Figure(Figure),
    /// Print the JSON Schema of a kind of file, for editors and other programs
    ///
    /// Draft 2020-12. `wirelore new library` writes them all into its folder `.schemas`, where the files that
    /// `wirelore new` starts look for them. A schema sees one file alone: `wirelore check` has the last word.
    Schema(Schema),
    /// Start a new card, survey or library from a commented file
    #[command(subcommand)]
    New(New),
}

#[derive(Debug, Group)]
pub(super) struct Find {
    /// A mark as printed, or words; none: a prompt that searches as you type
    #[arg(value_name = "WORDS")]
    pub(super) words: Vec<OsString>,
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
    /// Whether it is left to the prompt what to ask.
    pub(super) fn is_open(&self) -> bool {
        self.words.is_empty() && !self.json
    }

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
pub(super) struct Sheet {
    /// A panel's card, or the name of a panel that has none; several make several sheets
    #[arg(required = true, value_name = "PANEL")]
    pub(super) panels: Vec<String>,
    /// Blanks for so many cables; without it, one for each zone, one for the sounder, one for the keypad
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=200))]
    pub(super) cables: Option<u16>,
    /// The new board's card, where it is decided already
    #[arg(long, value_name = "BOARD")]
    pub(super) board: Option<String>,
    /// The folder for the sheets
    #[arg(short, long, value_name = "DIR", default_value = "sheets")]
    pub(super) out: PathBuf,
    /// Write sheet.xlsx too, the same blanks as a form for a spreadsheet; `new survey ID --from` reads it back
    #[arg(long)]
    pub(super) xlsx: bool,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(super) templates: Option<PathBuf>,
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
pub(super) struct Pocket {
    /// The file to write
    #[arg(short, long, value_name = "FILE", default_value = "pocket.html")]
    pub(super) out: PathBuf,
    /// Only these old panels, with commas between; boards, supplies and devices stay, for any panel may meet them
    #[arg(long, value_name = "IDS", value_delimiter = ',')]
    pub(super) panels: Vec<String>,
    /// A folder of packs, as `wirelore pack` writes it
    #[arg(long, value_name = "DIR")]
    pub(super) packs: Option<PathBuf>,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(super) templates: Option<PathBuf>,
}

#[derive(Debug, Group)]
pub(super) struct Readings {
    /// A survey file, or the id of a survey in the library
    #[arg(value_name = "SURVEY")]
    pub(super) survey: PathBuf,
    /// The file of readings
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
}

#[derive(Debug, Group)]
pub(super) struct Note {
    /// The card that the note is about
    #[arg(value_name = "CARD")]
    pub(super) card: String,
    /// What the job taught, in a sentence or more; `-` reads standard input; without it, your editor
    #[arg(value_name = "TEXT")]
    pub(super) text: Option<String>,
    /// The terminal, fuse or link it is about; without it, the whole card
    #[arg(long, value_name = "MARK", allow_hyphen_values = true)]
    pub(super) about: Option<String>,
    /// The job's number
    #[arg(long, value_name = "JOB")]
    pub(super) job: Option<String>,
    /// Who writes it; without it, the initials in `WIRELORE_BY`, or those that the login name shows
    #[arg(long, value_name = "INITIALS")]
    pub(super) by: Option<String>,
    /// How it is known
    #[arg(long, value_enum)]
    pub(super) how: Option<HowWord>,
    /// What was measured is what the card says of the mark
    #[arg(long, requires = "about", conflicts_with = "disagrees")]
    agrees: bool,
    /// What was measured is not what the card says of the mark
    #[arg(long, requires = "about")]
    disagrees: bool,
    /// A folder of surveys besides the library's own: the names and addresses of their sites are refused too
    #[arg(long, value_name = "DIR")]
    pub(super) surveys: Option<PathBuf>,
    /// The day it was seen, YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(super) date: Option<Date>,
}

#[derive(Debug, Group)]
pub(super) struct Set {
    /// The card's id, as in its file's name
    #[arg(value_name = "CARD")]
    pub(super) card: String,
    /// The terminal, fuse or link by its mark, or another place on the card
    #[arg(value_name = "MARK", allow_hyphen_values = true)]
    pub(super) of: String,
    /// What it is to say, for example rating="1.6 A"
    #[arg(required = true, value_name = "KEY=VALUE", value_parser = key_and_value)]
    pub(super) values: Vec<(String, String)>,
    /// Which of the card's sources says so, and where in it, for example "manual p.5"
    #[arg(long, value_name = "SOURCE")]
    pub(super) cite: Option<String>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(super) struct Schema {
    /// The kind of file; `card` is a card of any kind, `note` the header of a note
    #[arg(value_name = "KIND", value_parser = PossibleValuesParser::new(SCHEMAS))]
    pub(super) kind: String,
}

impl Note {
    /// Whether it agrees with the card, where it says so.
    pub(super) fn agreement(&self) -> Option<bool> {
        (self.agrees || self.disagrees).then_some(self.agrees)
    }
}

#[derive(Debug, Group)]
pub(super) struct Notes {
    /// Only those of this card
    #[arg(value_name = "CARD")]
    pub(super) card: Option<String>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(super) struct Gaps {
    /// Only those of this card
    #[arg(value_name = "CARD")]
    pub(super) card: Option<String>,
    /// A folder of surveys besides the library's own, to count which facts packs rest on
    #[arg(long, value_name = "DIR")]
    pub(super) surveys: Option<PathBuf>,
    /// The day from which two years are counted back, YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(super) today: Option<Date>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
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
        /// A table of its terminals to begin with, `.csv` or `.xlsx`, for a panel, a board or a supply
        #[arg(long, value_name = "FILE")]
        from: Option<PathBuf>,
        /// Which column of the table is what, for example mark=1,does=3,volts=none; without it, the heads say so.
        /// The fields: mark, does, group, polarity, volts, limit, fuse, notes, page
        #[arg(long, value_name = "FIELD=COLUMN", value_delimiter = ',', value_parser = key_and_value, requires = "from")]
        columns: Vec<(String, String)>,
    },
    /// A survey to fill in, in the library's `surveys` folder; without --library, in the folder you are in
    Survey {
        /// Its id: lower-case letters, digits and hyphens
        id: String,
        /// A filled-in form, `sheet.xlsx` of `wirelore sheet --xlsx`, to begin with; what is wrong is told by sheet and cell
        #[arg(long, value_name = "FILE")]
        from: Option<PathBuf>,
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

fn key_and_value(text: &str) -> Result<(String, String), String> {
    let (key, value) = text.split_once('=').ok_or("a key and its value are due, for example rating=\"1.6 A\"")?;
    Ok((key.trim().to_owned(), value.to_owned()))
}
