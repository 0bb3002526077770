//! The command line. Typed arguments become a ready configuration before any work; each command gives back a
//! report; what is printed and the exit code are decided here, once.

mod args;
mod cache;
mod check;
mod figure;
mod find;
mod finder;
mod hyphens;
mod id;
mod new;
mod note;
mod open;
mod pack;
mod place;
mod report;
mod screen;
mod show;
mod table;

use args::{Args, Command, New};
use clap::Parser;
use finder::Keeping;
use report::Report;
use std::ffi::OsString;
use std::process::ExitCode;

/// Runs the program on its arguments, the program's own name first. Gives back 0 when done; 1 for faults in content,
/// nothing found, or `--strict` and not ready; 2 for wrong usage or the machine. The highest wins.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let report = match Args::try_parse_from(hyphens::words_of_find(args.into_iter().collect())) {
        Ok(args) => command(args),
        Err(error) => usage(&error),
    };
    ExitCode::from(screen::print(&report).code())
}

fn command(args: Args) -> Report {
    let library = args.library();
    let cache = !args.no_cache;
    match args.command {
        Command::Find(find) => {
            let keeping = Keeping { cache, fresh: !find.no_fresh };
            find::run(library, &find.question(), find.json, keeping)
        }
        Command::Show(show) => show::run(library, &show.card),
        Command::Check(check) => check::run(library, &check.paths, check.json),
        Command::Pack(pack) => pack::run(library.as_ref(), &pack),
        Command::Demo(demo) => pack::demo(&demo.out),
        Command::Note(note) => note::run(library, &note),
        Command::Figure(figure) => figure::run(library, &figure),
        Command::New(New::Card { kind, id }) => new::card(library, kind, &id),
        Command::New(New::Survey { id }) => new::survey(library, &id),
        Command::New(New::Library { dir }) => new::library(&dir),
    }
    .unwrap_or_else(|report| report)
}

/// What clap has to say: help and version are done, everything else is wrong usage.
fn usage(error: &clap::Error) -> Report {
    let text = error.render().to_string();
    if error.use_stderr() { Report::wrong_usage(text) } else { Report::done(text) }
}
