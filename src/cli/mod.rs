//! The command line. Typed arguments become a ready configuration before any work; each command gives back a
//! report; what is printed and the exit code are decided here, once.

mod again;
mod args;
mod cache;
mod check;
mod clock;
mod draft;
mod figure;
mod find;
mod finder;
mod form;
mod gaps;
mod hyphens;
mod id;
mod known;
mod new;
mod note;
mod notes;
mod open;
mod ordinary;
mod pack;
mod paint;
mod place;
mod pocket;
mod prompt;
mod readings;
mod replace;
mod report;
mod schema;
mod screen;
mod set;
mod sheet;
mod show;
mod table;

use args::{Args, Command, New};
use clap::Parser;
use finder::{Finder, Keeping};
use report::Report;
use std::ffi::OsString;
use std::process::ExitCode;

/// Runs the program on its arguments, the program's own name first. Gives back 0 when done; 1 for faults in content,
/// nothing found, or `--strict` and not ready; 2 for wrong usage or the machine; 130 when it was interrupted. The highest
/// wins.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let args = hyphens::words_of_find(args.into_iter().collect());
    let report = match Args::try_parse_from(&args) {
        Ok(parsed) => wanting_words(&parsed, args).unwrap_or_else(|| command(parsed)),
        Err(error) => usage(&error),
    };
    ExitCode::from(screen::print(&report).code())
}

/// Wrong usage: `find` without words where there is no terminal to ask for them.
fn wanting_words(parsed: &Args, args: Vec<OsString>) -> Option<Report> {
    let Command::Find(find) = &parsed.command else { return None };
    let can_ask = find.is_open() && prompt::is_there();
    if can_ask || !find.words.is_empty() {
        return None;
    }
    args::words_missing(args).map(|error| usage(&error))
}

fn command(args: Args) -> Report {
    let library = args.library();
    let cache = !args.no_cache;
    match args.command {
        Command::Find(find) => {
            let finder = Finder::open(library, Keeping { cache, fresh: !find.no_fresh });
            let question = find.question();
            finder.and_then(|finder| {
                if find.is_open() { prompt::run(finder, &question) } else { find::run(finder, &question, find.json) }
            })
        }
        Command::Show(show) => show::run(library, &show.card),
        Command::Check(check) => check::run(library, &check.paths, check.json, cache),
        Command::Sheet(sheet) => sheet::run(library, &sheet),
        Command::Pack(pack) => pack::run(library.as_ref(), &pack, cache),
        Command::Demo(demo) => pack::demo(&demo.out, cache),
        Command::Index(index) => pack::merge::run(&index),
        Command::Pocket(asked) => pocket::run(library, &asked),
        Command::Readings(asked) => readings::run(library.as_ref(), &asked),
        Command::Note(note) => note::run(library, &note),
        Command::Set(set) => set::run(library, &set),
        Command::Notes(notes) => notes::run(library, notes.card.as_deref(), notes.json),
        Command::Gaps(gaps) => gaps::run(library, &gaps),
        Command::Figure(figure) => figure::run(library, &figure),
        Command::Schema(schema) => schema::run(&schema.kind),
        Command::New(New::Card { kind, id, from: None, .. }) => new::card(library, kind, &id),
        Command::New(New::Card { kind, id, from: Some(table), columns }) => {
            draft::run(library, kind, &id, &draft::Asked { table, columns })
        }
        Command::New(New::Survey { id, from: Some(form) }) => form::run(library, &id, &form),
        Command::New(New::Survey { id, from: None }) => new::survey(library, &id),
        Command::New(New::Library { dir, demo }) => new::library(&dir, demo),
    }
    .unwrap_or_else(|report| report)
}

/// What clap has to say: help and version are done, everything else is wrong usage.
fn usage(error: &clap::Error) -> Report {
    let text = error.render().to_string();
    if error.use_stderr() { Report::wrong_usage(text) } else { Report::done(text) }
}
