//! Where a note's words come from: the command line, standard input, or an editor.

use super::super::args::Note;
use super::super::report::Report;
use crate::source::LARGEST;
use std::env;
use std::fs;
use std::io::{self, IsTerminal, Read, Write};
use std::process::Command;
use tempfile::NamedTempFile;

/// The line below which nothing of an editor's file is part of the note.
const BELOW: &str = "==== what stands below this line is not part of the note ====";

/// A note's words, and the editor's file while they are not safe in the library.
#[derive(Debug)]
pub(super) struct Words {
    pub(super) text: String,
    draft: Option<NamedTempFile>,
}

/// The words that a command line leads to.
///
/// # Errors
/// When there are none, or they can't be read.
pub(super) fn of(note: &Note) -> Result<Words, Report> {
    let words = match note.text.as_deref() {
        Some("-") => Words { text: standard_input()?, draft: None },
        Some(text) => Words { text: text.to_owned(), draft: None },
        None if io::stdin().is_terminal() => edited(note)?,
        None => {
            return Err(Report::wrong_usage(
                "error: the note has no text: write it after the card, in quotes; or `-`, to read it from standard input",
            ));
        }
    };
    if words.text.trim().is_empty() {
        return Err(Report::wrong_usage("error: the note is empty: write what the job taught"));
    }
    Ok(words)
}

impl Words {
    /// A report of a note that was not written; words from an editor are kept, and it says where.
    pub(super) fn kept(self, card: &str, mut report: Report) -> Report {
        let Some(draft) = self.draft else { return report };
        let kept = fs::write(draft.path(), &self.text).and_then(|()| draft.keep().map_err(|error| error.error));
        let outcome = report.outcome;
        match kept {
            Ok((_, path)) => {
                let path = path.display();
                report.say(
                    format!("Your words are in {path}: mend them, then `wirelore note {card} - < {path}`"),
                    outcome,
                );
            }
            Err(error) => report.say(format!("Your words can't be kept ({error}); they were:\n{}", self.text), outcome),
        }
        report
    }
}

fn standard_input() -> Result<String, Report> {
    let failed = |error: io::Error| Report::machine(format!("error: can't read standard input: {error}"));
    let mut bytes = Vec::new();
    io::stdin().lock().take(LARGEST + 1).read_to_end(&mut bytes).map_err(failed)?;
    text(bytes, "standard input")
}

fn text(bytes: Vec<u8>, from: &str) -> Result<String, Report> {
    if bytes.len() as u64 > LARGEST {
        return Err(Report::content(format!("error: {from} is larger than 1 MiB: a note is some sentences")));
    }
    let text = String::from_utf8(bytes)
        .map_err(|_| Report::content(format!("error: {from} is not UTF-8 text: save it as UTF-8")))?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(&text).replace("\r\n", "\n"))
}

/// Opens the editor of VISUAL or EDITOR on an empty note, and gives back what was saved.
fn edited(note: &Note) -> Result<Words, Report> {
    let Some(editor) =
        ["VISUAL", "EDITOR"].iter().filter_map(|name| env::var(name).ok()).find(|e| !e.trim().is_empty())
    else {
        return Err(Report::wrong_usage(
            "error: the note has no text, and neither VISUAL nor EDITOR names an editor: write it after the card, in quotes",
        ));
    };
    let failed = |error: io::Error| Report::machine(format!("error: can't make a file for {editor}: {error}"));
    let mut draft = tempfile::Builder::new().prefix("wirelore-").suffix(".md").tempfile().map_err(failed)?;
    draft.write_all(blank(note).as_bytes()).and_then(|()| draft.flush()).map_err(failed)?;
    let mut parts = editor.split_whitespace();
    let mut command = Command::new(parts.next().unwrap_or_default());
    let ended = command.args(parts).arg(draft.path()).status();
    let bytes = fs::read(draft.path()).map_err(failed)?;
    let whole = text(bytes, "the editor's file")?;
    let words = Words { text: whole.split(BELOW).next().unwrap_or_default().trim().to_owned(), draft: Some(draft) };
    match ended {
        Ok(status) if status.success() => Ok(words),
        Ok(status) => Err(stopped(words, note, &format!("error: {editor} ended with {status}: nothing was written"))),
        Err(error) => Err(Report::machine(format!("error: can't start {editor}: {error}"))),
    }
}

/// An editor that ended badly: what was typed by then is kept.
fn stopped(words: Words, note: &Note, what: &str) -> Report {
    let report = Report::machine(what);
    if words.text.is_empty() { report } else { words.kept(&note.card, report) }
}

/// What the editor shows first.
fn blank(note: &Note) -> String {
    let about = note.about.as_ref().map(|about| format!(", {about}")).unwrap_or_default();
    format!(
        "\n\n{BELOW}\n\nWrite above what the job taught about {}{about}. Markdown may be used. An empty note is not \
         written.\nEverybody reads it: no names or addresses of sites, no telephone numbers, no codes.\n",
        note.card
    )
}
