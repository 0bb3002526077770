//! What a finding is.

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// The job can't be done as planned, or nobody knows whether it can.
    Blocker,
    /// Look at it before relying on it.
    Warning,
    /// Good to know.
    Note,
}

impl Level {
    /// The word of pack.json.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Blocker => "blocker",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// A finding's code, as pack.json spells it.
pub type Code = &'static str;

/// Something that a reader of the pack must know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// How much it matters.
    pub level: Level,
    /// Its code.
    pub code: Code,
    /// What it is about.
    pub about: String,
    /// What is so, and the measurement or act that settles it.
    pub says: String,
}

/// All findings of a job, and whether its pack is ready.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judgement {
    /// The findings: blockers first, then warnings, then notes; each group by code and then by what it is about.
    pub findings: Vec<Finding>,
    /// No finding is a blocker, and no `must` item is unserved.
    pub ready: bool,
}

impl Finding {
    /// A finding that stops the job.
    pub(super) fn blocker(code: Code, about: &str, says: String) -> Self {
        Self { level: Level::Blocker, code, about: about.into(), says }
    }

    /// A finding to look at.
    pub(super) fn warning(code: Code, about: &str, says: String) -> Self {
        Self { level: Level::Warning, code, about: about.into(), says }
    }

    /// A finding that is good to know.
    pub(super) fn note(code: Code, about: &str, says: String) -> Self {
        Self { level: Level::Note, code, about: about.into(), says }
    }

    /// The same at another level.
    pub(super) fn at(self, level: Level) -> Self {
        Self { level, ..self }
    }
}
