//! One fact of a card, as it is indexed and as it is found.

use crate::model::{CardId, Mark};

/// What kind of fact it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the words are the card's own")]
pub enum Kind {
    Card,
    Terminal,
    Fuse,
    Siren,
    Zone,
    Link,
    Marking,
    Caution,
    Note,
}

impl Kind {
    /// Every kind, in the order in which equal hits are listed.
    pub const ALL: [Self; 9] = [
        Self::Card,
        Self::Terminal,
        Self::Fuse,
        Self::Siren,
        Self::Zone,
        Self::Link,
        Self::Marking,
        Self::Caution,
        Self::Note,
    ];

    /// The word of `find --json` and `--kind`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Terminal => "terminal",
            Self::Fuse => "fuse",
            Self::Siren => "siren",
            Self::Zone => "zone",
            Self::Link => "link",
            Self::Marking => "marking",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }

    /// The kind of this word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }
}

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// The card's id.
    pub card: CardId,
    /// The card's name as a person says it.
    pub card_name: String,
    /// What kind of fact it is.
    pub kind: Kind,
    /// The mark it is about, where there is one.
    pub mark: Option<Mark>,
    /// What it is, in a few words.
    pub title: String,
    /// What it does or says.
    pub text: String,
    /// What can hurt someone there.
    pub danger: Option<String>,
    /// What it should measure.
    pub volts: Option<String>,
    /// The fuse that guards it.
    pub fuse: Option<String>,
    /// How it is known, and by which source.
    pub known: Option<String>,
    /// How well it answers, larger is better; only of use beside other hits of the same question.
    pub score: f32,
}

/// One fact, before it is indexed.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// All that a hit shows; its score is nought.
    pub(super) hit: Hit,
    /// The words its card goes by: id, maker, model, other names.
    pub(super) context: String,
    /// For the card itself: each of those names, whole.
    pub(super) names: Vec<String>,
    /// Other marks that it is about.
    pub(super) related: Vec<Mark>,
    /// Words that it is found by and that are not shown.
    pub(super) extra: String,
}
