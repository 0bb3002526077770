//! A note: a YAML header between two lines of `---`, then Markdown.

use super::reader;
use super::tree::{Node, Span};
use crate::diagnostics::Fault;

/// A note in its two parts.
#[derive(Debug, Clone, PartialEq)]
pub struct NoteText {
    /// The header, with places in the whole file.
    pub header: Node,
    /// What comes after it, trimmed.
    pub body: String,
    /// The byte of the file at which it begins.
    pub start: usize,
}

/// Splits a note. `file` names it in the fault.
///
/// # Errors
/// When it has no header, or the header is not YAML.
pub fn split(file: &str, text: &str) -> Result<NoteText, Box<Fault>> {
    let whole = text.len();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let Some((header, body)) = parts(text) else {
        let span = Span { line: 1, column: 1, start: 0, length: text.lines().next().map_or(0, str::len) };
        let help = "begin with a line `---`, then `date: 2026-11-03` and so on, then a line `---`, then the note";
        return Err(Box::new(Fault::new(file, text, span, "this note has no header").with_help(help)));
    };
    // The opening line becomes a comment of the same length, so that every place stays true.
    let yaml = format!("###{}", header.get(3..).unwrap_or_default());
    let header = reader::read(file, &yaml)?;
    let start = whole - body.trim_start().len();
    Ok(NoteText { header, body: body.trim().to_owned(), start })
}

/// The header with its opening line, and what comes after the closing one.
fn parts(text: &str) -> Option<(&str, &str)> {
    let mut lines = text.split_inclusive('\n');
    let mut at = lines.next().filter(|line| line.trim_end() == "---")?.len();
    for line in lines {
        let end = at + line.len();
        if line.trim_end() == "---" {
            return Some((text.get(..at)?, text.get(end..)?));
        }
        at = end;
    }
    None
}
