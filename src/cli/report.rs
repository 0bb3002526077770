//! What a command has to say when it ends.

/// How a command ended; the highest wins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) enum Outcome {
    /// Done.
    #[default]
    Done,
    /// Faults in content, nothing found, or not ready where that counts.
    Content,
    /// Wrong usage, or the machine: files, disk.
    Machine,
    /// The user, or the system, asked the program to end before it was done.
    Interrupted,
}

impl Outcome {
    /// The exit code.
    pub(super) fn code(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Content => 1,
            Self::Machine => 2,
            // What a shell gives a program that Ctrl-C ended.
            Self::Interrupted => 130,
        }
    }
}

/// What to print, where, and how it ended.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Report {
    /// For standard output.
    pub(super) out: String,
    /// For standard error.
    pub(super) err: String,
    /// Whether what is for standard output may drive the terminal: whoever made it let nothing of a card do so.
    pub(super) is_painted: bool,
    /// How it ended.
    pub(super) outcome: Outcome,
}

/// A command's report; an early end is a report too.
pub(super) type Ended = Result<Report, Report>;

impl Report {
    /// Done, with this to print.
    pub(super) fn done(out: impl Into<String>) -> Self {
        Self { out: out.into(), ..Self::default() }
    }

    /// The same for text that has colours of our own, and no other sign that drives a terminal.
    pub(super) fn painted(out: impl Into<String>) -> Self {
        Self { is_painted: true, ..Self::done(out) }
    }

    /// Nothing found, or faults in content.
    pub(super) fn content(err: impl Into<String>) -> Self {
        Self { err: line(err), outcome: Outcome::Content, ..Self::default() }
    }

    /// The machine could not.
    pub(super) fn machine(err: impl Into<String>) -> Self {
        Self { err: line(err), outcome: Outcome::Machine, ..Self::default() }
    }

    /// The user asked for what can't be.
    pub(super) fn wrong_usage(err: impl Into<String>) -> Self {
        Self::machine(err)
    }

    /// Adds a line to standard error, and lets the outcome be no better than `outcome`.
    pub(super) fn say(&mut self, err: impl Into<String>, outcome: Outcome) {
        self.err.push_str(&line(err));
        self.outcome = self.outcome.max(outcome);
    }
}

fn line(text: impl Into<String>) -> String {
    let mut text = text.into();
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    text
}
