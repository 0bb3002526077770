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
