//! The commands and options as they are typed, a file for what each command takes.

mod check;
mod demo;
mod find;
mod gaps;
mod new;
mod note;
mod notes;
mod pack;
mod pocket;
mod readings;
mod schema;
mod set;
mod sheet;
mod show;
mod typed;

pub(super) use check::Check;
pub(super) use demo::Demo;
pub(super) use find::Find;
pub(super) use gaps::Gaps;
pub(super) use new::{CardKind, New};
pub(super) use note::Note;
pub(super) use notes::Notes;
pub(super) use pack::Pack;
pub(super) use pocket::Pocket;
pub(super) use readings::Readings;
pub(super) use schema::Schema;
pub(super) use set::Set;
pub(super) use sheet::Sheet;
pub(super) use show::Show;

use super::figure::Figure;
use clap::{CommandFactory, Parser, Subcommand};
use std::ffi::OsString;
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
