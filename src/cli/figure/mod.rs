//! `wirelore figure`: one figure alone, with its formula, the numbers put into it and their sources.

mod args;
mod battery;
mod drop;
mod fuse;
mod loops;
mod sheet;
mod wire;

pub(super) use args::Figure;

use super::open::{Opened, open};
use super::report::{Ended, Report};
use crate::wording::{all_nearest, listed};
use std::path::PathBuf;

/// Works one figure out.
pub(super) fn run(library: Option<PathBuf>, figure: &Figure) -> Ended {
    // A fuse needs no card, and then no library.
    if let Figure::Fuse(question) = figure {
        return Ok(Report::done(fuse::sheet(question).printed(question.json)));
    }
    let opened = open(library)?;
    let answered = match figure {
        Figure::Drop(asked) => drop::sheet(&opened.library, asked).map(|sheet| sheet.printed(asked.json)),
        Figure::Loop(asked) => loops::sheet(&opened.library, asked).map(|sheet| sheet.printed(asked.json)),
        Figure::Battery(asked) => battery::sheet(&opened.library, asked).map(|sheet| sheet.printed(asked.json)),
        Figure::Fuse(asked) => Ok(fuse::sheet(asked).printed(asked.json)),
    };
    told(&opened, answered)
}

/// The answer, or that there is none, with the library's own faults.
fn told(opened: &Opened, answered: Result<String, Report>) -> Result<Report, Report> {
    match answered {
        Ok(text) => {
            let mut report = Report::done(text);
            opened.warn(&mut report);
            Ok(report)
        }
        Err(mut report) => {
            opened.warn(&mut report);
            Err(report)
        }
    }
}

/// That nothing of this kind has this name, with the nearest of those that there are.
fn nothing_of<'a>(what: &str, name: &str, there: impl Iterator<Item = &'a str> + Clone) -> Report {
    let near = all_nearest(name, there.clone());
    let all: Vec<&str> = there.collect();
    let hint = match (near.as_slice(), all.as_slice()) {
        ([], []) => "There is none.".to_string(),
        ([], all) => format!("There is {}.", listed(all)),
        (near, _) => format!("Did you mean {}?", near.join(", or ")),
    };
    Report::content(format!("error: there is no {what} \"{name}\" in the library\n{hint}"))
}
