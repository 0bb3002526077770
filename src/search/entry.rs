//! One fact of a card, as it is indexed and as it is found.

use super::mark;
use super::side::Side;
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
    /// What to check when it is at fault.
    pub check: Option<String>,
    /// How it is known, and by which source.
    pub known: Option<String>,
    /// The side of the supply it belongs to, where its mark or its card says so.
    pub side: Option<Side>,
    /// Whether it is on the other side than the one asked for.
    pub is_opposite: bool,
    /// How well it answers, larger is better; only of use beside other hits of the same question.
    pub score: f32,
}

impl Hit {
    /// Which one it is and on which side: `S-`, or where its mark has no sign `LAMP, positive-applied`.
    #[must_use]
    pub fn with_side(&self) -> String {
        let is_printed = self.mark.as_deref().is_some_and(|mark| mark::key(mark).sign.is_some());
        let side = self.side.filter(|_| !is_printed).map(Side::told);
        [self.mark.as_deref(), side].into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// One fact, before it is indexed.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// All that a hit shows; its score is nought.
    pub(super) hit: Hit,
    /// What is searched instead of the text that is shown.
    pub(super) searched: Option<String>,
    /// The words its card goes by.
    pub(super) context: String,
    /// For the card itself and its markings: each of its names, whole.
    pub(super) names: Vec<String>,
    /// The names that keep an answer to its card.
    pub(super) of: Vec<String>,
    /// Other marks that it is about.
    pub(super) related: Vec<Mark>,
    /// Words that it is found by and that are not shown.
    pub(super) extra: String,
}
