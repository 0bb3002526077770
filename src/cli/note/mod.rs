//! `wirelore note`: one new file, never an edit of another's, and nothing in it that must not be shared.

mod file;
mod words;

use super::args::Note;
use super::clock::day;
use super::known::guard;
use super::open::{Opened, open};
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::check;
use crate::diagnostics::{Fault, draw};
use crate::model::Card;
use crate::wording::{all_nearest, listed};
use std::env;
use std::path::PathBuf;

/// Writes a note into the library's folder and says where it is.
pub(super) fn run(library: Option<PathBuf>, note: &Note) -> Ended {
    let opened = open(library)?;
    let Some(root) = &opened.root else { return Err(needs_library("a note is written into")) };
    let card = opened.library.card(&note.card).ok_or_else(|| no_such_card(&opened.library, &note.card))?;
    if let Some(about) = &note.about {
        has_mark(card, &note.card, about)?;
    }
    let words = words::of(note)?;
    let date = day(note.date);
    let by = note.by.clone().or_else(initials);
    let text = file::text(date, by.as_deref(), note, &words.text);
    let name = file::stem(date, &words.text);
    let written = refuse(&opened, note, card, &name, &text)
        .and_then(|()| file::write(root, &root.join("notes").join(&note.card), &name, &text));
    let path = match written {
        Ok(path) => path,
        Err(report) => return Err(words.kept(&note.card, report)),
    };
    let mut report = Report::done(format!("Wrote {}\n", path.display()));
    if by.is_none() {
        report.say("It does not say who wrote it: give --by, or set WIRELORE_BY to your initials.", Outcome::Done);
    }
    opened.warn(&mut report);
    Ok(report)
}

/// The report for what needs a library that can be written.
pub(super) fn needs_library(what: &str) -> Report {
    Report::wrong_usage(format!(
        "error: {what} a library of your own, and the demo library inside the program can't be written\n\
         Make one with `wirelore new library DIR`, then name it with `--library DIR` or WIRELORE_LIBRARY."
    ))
}

fn has_mark(card: Card<'_>, id: &str, about: &str) -> Result<(), Report> {
    let marks = card.marks();
    if marks.contains(&about) {
        return Ok(());
    }
    let near = all_nearest(about, marks.iter().copied());
    let hint = match (near.as_slice(), marks.is_empty()) {
        (_, true) => format!("{id} has no marks: leave --about out"),
        ([], _) => format!("Its marks: {}", marks.join(", ")),
        (near, _) => format!("Did you mean {}?", near.join(", or ")),
    };
    Err(Report::content(format!("error: {id} has no mark \"{about}\"\n{hint}")))
}

/// Refuses a note that the next check would complain of, and one that holds what must not be shared.
fn refuse(opened: &Opened, note: &Note, card: Card<'_>, name: &str, text: &str) -> Result<(), Report> {
    let file = format!("notes/{}/{name}.md", note.card);
    let guard = guard(opened, note.surveys.as_deref())?;
    let mut faults = check::note(Some(card), &file, &format!("{name}.md"), text).faults;
    faults.extend(check::private(&guard, &file, text));
    faults.extend(check::pictures_of_note(&opened.files, &guard, &file, text));
    if faults.is_empty() {
        return Ok(());
    }
    let drawn: Vec<String> = faults.iter().map(|fault| draw(fault, false)).collect();
    Err(Report::content(format!("{}\nNothing was written: {}.", drawn.join("\n"), instead(&faults))))
}

/// What to do about a refusal, in a line.
fn instead(faults: &[Fault]) -> String {
    let mut places: Vec<String> = faults.iter().map(|fault| format!("line {}", fault.line)).collect();
    places.dedup();
    format!("put {} in other words, and write the note again", listed(&places))
}

/// The writer's initials: `WIRELORE_BY`, else those that the login name shows, `km` or `k.marsh`.
fn initials() -> Option<String> {
    let given = |name: &str| env::var(name).ok().map(|value| value.trim().to_owned()).filter(|value| !value.is_empty());
    given("WIRELORE_BY").or_else(|| of_login(&given("USER").or_else(|| given("USERNAME"))?))
}

fn of_login(login: &str) -> Option<String> {
    let parts: Vec<&str> = login.split(['.', '-', '_', ' ']).filter(|part| !part.is_empty()).collect();
    match parts.as_slice() {
        [one] if (2..=3).contains(&one.len()) && one.chars().all(|c| c.is_ascii_alphabetic()) => {
            Some(one.to_uppercase())
        }
        [_, _, ..] => Some(parts.iter().filter_map(|part| part.chars().next()).collect::<String>().to_uppercase()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::of_login;

    #[test]
    fn initials_are_read_from_a_login_that_shows_them() {
        assert_eq!(of_login("km").as_deref(), Some("KM"));
        assert_eq!(of_login("k.marsh").as_deref(), Some("KM"));
        assert_eq!(of_login("root"), None);
    }
}
