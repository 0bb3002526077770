//! The file under check, and the faults found in it so far.

use crate::diagnostics::{Fault, Span};
use crate::wording::all_nearest;

/// A file under check.
pub(crate) struct Sheet<'a> {
    /// The file, as the user names it.
    pub(crate) file: &'a str,
    /// Its text.
    pub(crate) text: &'a str,
    /// What is wrong with it.
    pub(crate) faults: Vec<Fault>,
}

impl<'a> Sheet<'a> {
    /// A file without faults so far.
    pub(crate) fn new(file: &'a str, text: &'a str) -> Self {
        Self { file, text, faults: Vec::new() }
    }

    /// Adds a fault: where, what is wrong, and what to write instead.
    pub(crate) fn fault(&mut self, span: Span, message: impl Into<String>, help: impl Into<String>) {
        self.faults.push(Fault::new(self.file, self.text, span, message).with_help(help));
    }

    /// Adds the fault of a name that is none of `known`, with the nearest right spelling, or all of them when
    /// they are few. `what` says what the names are: "terminal of this card".
    pub(crate) fn unknown(&mut self, span: Span, name: &str, what: &str, known: &[&str]) {
        let help = spelling(name, known);
        self.fault(span, format!("`{name}` is no {what}"), help);
    }
}

/// Most names that are listed in full.
const LISTED: usize = 16;

/// What to write instead of `name`: the nearest of `known`, else all of them.
pub(crate) fn spelling(name: &str, known: &[&str]) -> String {
    let listed = || known.iter().map(|k| format!("`{k}`")).collect::<Vec<_>>().join(", ");
    let near = all_nearest(name, known.iter().copied());
    if !near.is_empty() {
        let near: Vec<String> = near.iter().map(|name| format!("`{name}`")).collect();
        return format!("did you mean {}?", near.join(" or "));
    }
    match known.len() {
        0 => "there is none yet".into(),
        1..=LISTED => format!("there is {}", listed()),
        many => format!("there are {many} of them, none nearly like it"),
    }
}
