//! `wirelore note`: one new file, never an edit of another's.

use super::args::Note;
use super::open::open;
use super::report::{Ended, Report};
use super::show::no_such_card;
use crate::model::Card;
use crate::wording::all_nearest;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use serde_json::Value;
use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

/// How many words of a note its file's name takes, and how many letters at most.
const NAME_WORDS: usize = 6;
const NAME_LETTERS: usize = 48;

/// Writes a note into the library's folder and says where it is.
pub(super) fn run(library: Option<PathBuf>, note: &Note) -> Ended {
    let opened = open(library)?;
    let Some(root) = &opened.root else { return Err(needs_library("a note is written into")) };
    let card = opened.library.card(&note.card).ok_or_else(|| no_such_card(&opened.library, &note.card))?;
    if note.text.trim().is_empty() {
        return Err(Report::wrong_usage("error: the note is empty: write what the job taught"));
    }
    if let Some(about) = &note.about {
        has_mark(card, &note.card, about)?;
    }
    let date = note.date.unwrap_or_else(|| ZonedDateTime::now().date());
    let path = write(&root.join("notes").join(&note.card), date, note)?;
    let mut report = Report::done(format!("Wrote {}\n", path.display()));
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
    let marks = marks(card);
    if marks.contains(&about) {
        return Ok(());
    }
    let near = all_nearest(about, marks.iter().copied());
    let hint = match (near.first(), marks.is_empty()) {
        (_, true) => format!("{id} has no marks: leave --about out"),
        (Some(mark), _) => format!("Did you mean {mark}?"),
        (None, _) => format!("Its marks: {}", marks.join(", ")),
    };
    Err(Report::content(format!("error: {id} has no mark \"{about}\"\n{hint}")))
}

/// Every mark that a note can be about: terminals, fuses, links.
fn marks(card: Card<'_>) -> Vec<&str> {
    let Some(unit) = card.unit() else { return Vec::new() };
    let terminals = unit.terminals.iter().map(|t| t.mark.as_str());
    let fuses = unit.fuses.iter().map(|f| f.mark.as_str());
    terminals.chain(fuses).chain(unit.links.iter().map(|l| l.mark.as_str())).collect()
}

/// The note's file, written under the first free name.
fn write(folder: &Path, date: Date, note: &Note) -> Result<PathBuf, Report> {
    let failed = |path: &Path, error: &std::io::Error| {
        Report::machine(format!("error: can't write {}: {error}", path.display()))
    };
    fs::create_dir_all(folder).map_err(|error| failed(folder, &error))?;
    let stem = format!("{date}-{}", slug(&note.text));
    for number in 1_u32.. {
        let name = if number == 1 { format!("{stem}.md") } else { format!("{stem}-{number}.md") };
        let path = folder.join(name);
        match OpenOptions::new().write(true).create_new(true).open(&path) {
            Ok(mut file) => {
                if let Err(error) = file.write_all(text(date, note).as_bytes()).and_then(|()| file.sync_all()) {
                    // Half a note is worse than none; when it can't be removed either, the first error is said.
                    let _ = fs::remove_file(&path);
                    return Err(failed(&path, &error));
                }
                return Ok(path);
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(failed(&path, &error)),
        }
    }
    Err(Report::machine(format!("error: no name is free in {}", folder.display())))
}

/// The file's text: the header of DESIGN.md section 4.7, then the words.
fn text(date: Date, note: &Note) -> String {
    let quoted = |text: &String| Value::String(text.clone()).to_string();
    let mut lines = vec!["---".to_string()];
    lines.extend(note.about.as_ref().map(|about| format!("about: {}", quoted(about))));
    lines.push(format!("date: {date}"));
    lines.extend(note.by.as_ref().map(|by| format!("by: {}", quoted(by))));
    lines.extend(note.job.as_ref().map(|job| format!("job: {}", quoted(job))));
    lines.extend(note.how.map(|how| format!("how: {}", how.how().word())));
    lines.push("---".to_string());
    lines.push(note.text.trim().to_string());
    lines.join("\n") + "\n"
}

/// The first words of a note as part of a file's name.
fn slug(text: &str) -> String {
    let letters: String =
        text.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect();
    let mut slug = String::new();
    for word in letters.split_whitespace().take(NAME_WORDS) {
        let word: String = word.chars().take(NAME_LETTERS).collect();
        if slug.len() + word.len() >= NAME_LETTERS && !slug.is_empty() {
            break;
        }
        if !slug.is_empty() {
            slug.push('-');
        }
        slug.push_str(&word);
    }
    if slug.is_empty() { "note".to_string() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::slug;

    #[test]
    fn a_name_is_made_of_the_first_words() {
        assert_eq!(slug("The strobe trigger idles at 12.9 V here, not at 0 V."), "the-strobe-trigger-idles-at-12");
        assert_eq!(slug("../../etc/passwd"), "etc-passwd");
        assert_eq!(slug("…"), "note");
        assert!(slug(&"x".repeat(4000)).len() <= 48);
    }
}
