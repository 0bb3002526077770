//! What is wrong in a file, where, and what to write instead: one type, one place that draws it.

use std::fmt::Write as _;
use std::ops::Range;

/// How many characters of a long line are kept before and after the place.
const KEPT: usize = 100;

/// Where something stands in its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Span {
    /// The line, from 1.
    pub line: usize,
    /// The column, in characters, from 1.
    pub column: usize,
    /// The first byte.
    pub start: usize,
    /// How many bytes it takes.
    pub length: usize,
}

impl Span {
    /// The place of some bytes of a text.
    #[must_use]
    pub fn of(text: &str, place: &Range<usize>) -> Self {
        let ahead = text.get(..place.start).unwrap_or_default();
        let line = ahead.matches('\n').count() + 1;
        let column = ahead.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
        Self { line, column, start: place.start, length: place.len() }
    }
}

/// A fault in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file, as the user names it.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
    /// The column, in characters, from 1.
    pub column: usize,
    /// How many characters of that line are meant, at least 1.
    pub length: usize,
    /// What is wrong.
    pub message: String,
    /// What to write instead; empty when there is nothing to say.
    pub help: String,
    /// The line itself, cut on both sides when it is very long; empty when the fault is the whole file's.
    pub source: String,
    /// How many characters of `source` stand before the place.
    pub before: usize,
    /// Whether it is only worth a look: nothing is left out for it.
    pub is_warning: bool,
}

impl Fault {
    /// A fault at `span` of the file whose text is `text`.
    #[must_use]
    pub fn new(file: &str, text: &str, span: Span, message: impl Into<String>) -> Self {
        let (head, tail) = text.split_at_checked(span.start).unwrap_or((text, ""));
        let same_line = |c: &char| *c != '\n';
        let mut source: Vec<char> = head.chars().rev().take_while(same_line).take(KEPT).collect();
        source.reverse();
        let before = source.len();
        let meant = tail.get(..span.length).unwrap_or_default();
        let meant = meant.chars().take(2 * KEPT).take_while(same_line).collect::<String>().trim_end().chars().count();
        source.extend(tail.chars().take_while(same_line).take(meant + KEPT));
        let source = source.into_iter().collect::<String>().trim_end().to_owned();
        Self {
            file: file.to_owned(),
            line: span.line.max(1),
            column: span.column.max(1),
            length: meant.max(1),
            message: message.into(),
            help: String::new(),
            source,
            before,
            is_warning: false,
        }
    }

    /// A fault of a whole file, one that could not be read for example.
    #[must_use]
    pub fn of_file(file: &str, message: impl Into<String>) -> Self {
        Self::new(file, "", Span::default(), message)
    }

    /// The same fault, with what to write instead.
    #[must_use]
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }

    /// The same as a warning.
    #[must_use]
    pub fn as_warning(mut self) -> Self {
        self.is_warning = true;
        self
    }

    /// Its level in a word.
    fn level(&self) -> &'static str {
        if self.is_warning { "warning" } else { "error" }
    }
}

/// Puts faults in file order, then line order.
pub fn sort(faults: &mut [Fault]) {
    faults.sort_by(|a, b| (&a.file, a.line, a.column).cmp(&(&b.file, b.line, b.column)));
}

/// Draws a fault the way a compiler does: file, line and column, the line itself with a caret, what is wrong and
/// what to write. `colours` adds terminal colours; signs that could drive a terminal are never passed on.
#[must_use]
pub fn draw(fault: &Fault, colours: bool) -> String {
    let paint =
        |code: &str, text: &str| if colours { format!("\u{1b}[{code}m{text}\u{1b}[0m") } else { text.to_owned() };
    let number = fault.line.to_string();
    let margin = " ".repeat(number.len());
    let mut out = String::new();
    let colour = if fault.is_warning { "1;33" } else { "1;31" };
    let _ = writeln!(out, "{}: {}", paint(colour, fault.level()), paint("1", &harmless(&fault.message)));
    let place = format!("{}:{}:{}", harmless(&fault.file), fault.line, fault.column);
    let _ = writeln!(out, "{margin}{} {place}", paint("34", "-->"));
    if !fault.source.trim().is_empty() {
        let bar = paint("34", "|");
        let caret = format!("{}{}", " ".repeat(fault.before), paint("1;31", &"^".repeat(fault.length)));
        let _ = writeln!(out, "{margin} {bar}");
        let _ = writeln!(out, "{} {bar} {}", paint("34", &number), harmless(&fault.source));
        let _ = writeln!(out, "{margin} {bar} {caret}");
    }
    if !fault.help.is_empty() {
        let _ = writeln!(out, "{margin} {} {}", paint("34", "= help:"), harmless(&fault.help));
    }
    out
}

/// Faults as JSON: a list of `{ file, line, column, message, help, level }`, `help` null when there is nothing to say,
/// `level` error or warning.
#[must_use]
pub fn json(faults: &[Fault]) -> serde_json::Value {
    let row = |fault: &Fault| {
        let help = (!fault.help.is_empty()).then_some(fault.help.as_str());
        serde_json::json!({
            "file": fault.file,
            "line": fault.line,
            "column": fault.column,
            "message": fault.message,
            "help": help,
            "level": fault.level(),
        })
    };
    faults.iter().map(row).collect()
}

/// `text` with every sign that could drive a terminal or turn the writing round replaced, one for one, so that
/// carets still stand where they should.
#[must_use]
pub fn harmless(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.chars()
        .map(|c| match c {
            '\t' => ' ',
            c if c.is_control() || turns(c) => '\u{fffd}',
            c => c,
        })
        .collect()
}
