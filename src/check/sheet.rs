//! The file under check, and the faults found in it so far.

use crate::diagnostics::{Fault, Span};
use crate::wording::nearest;

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
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.is_empty() => "there is none yet".into(),
        None if known.len() <= LISTED => format!("there is {}", listed()),
        None => format!("there are {} of them, none nearly like it", known.len()),
    }
}
