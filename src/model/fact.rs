//! What is known, and how.

use super::Evidence;
use serde::{Deserialize, Serialize};

/// A value that may be not known, known to be absent, or known.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub enum Fact<T> {
    /// The key was left out.
    #[default]
    NotKnown,
    /// The key says `none`.
    Absent,
    /// The key gives it.
    Is(T),
}

impl<T> Fact<T> {
    /// The value, when there is one.
    #[must_use]
    pub fn get(&self) -> Option<&T> {
        match self {
            Self::Is(value) => Some(value),
            Self::NotKnown | Self::Absent => None,
        }
    }

    /// Whether the key was left out.
    #[must_use]
    pub fn is_not_known(&self) -> bool {
        matches!(self, Self::NotKnown)
    }

    /// Whether it is known to be absent.
    #[must_use]
    pub fn is_absent(&self) -> bool {
        matches!(self, Self::Absent)
    }
}

/// How a source came by what it says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum How {
    /// Somebody put a meter on it.
    Measured,
    /// The maker's paper says so.
    Manual,
    /// Only what is printed on the thing itself.
    Label,
    /// Somebody said so.
    Hearsay,
}

impl How {
    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Manual => "manual",
            Self::Label => "label",
            Self::Hearsay => "hearsay",
        }
    }
}

/// One source of a fact: a key of the card's `sources`, and where in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cite {
    /// The key in `sources`.
    pub source: String,
    /// The place in it, for example `p.6`; empty when none is given.
    pub place: String,
    /// How that source knows.
    pub how: How,
}

/// How far a fact can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Standing {
    /// Measured, by two sources or more.
    Confirmed,
    /// Measured by one source.
    Measured,
    /// From the maker's paper.
    Manual,
    /// Label or hearsay only.
    LabelOnly,
    /// No source at all.
    Unverified,
}

impl Standing {
    /// The standing that `cites` give a fact.
    #[must_use]
    pub fn of(cites: &[Cite]) -> Self {
        let mut measured: Vec<&str> =
            cites.iter().filter(|c| c.how == How::Measured).map(|c| c.source.as_str()).collect();
        measured.sort_unstable();
        measured.dedup();
        match measured.len() {
            0 if cites.is_empty() => Self::Unverified,
            0 if cites.iter().any(|c| c.how == How::Manual) => Self::Manual,
            0 => Self::LabelOnly,
            1 => Self::Measured,
            _ => Self::Confirmed,
        }
    }

    /// The standing that `cites` give a fact that sites have measured: a site that agrees is one more source that
    /// measured it. Where a site disagrees, none of them counts.
    #[must_use]
    pub fn at_sites(cites: &[Cite], evidence: Evidence) -> Self {
        let sites = if evidence.disagree == 0 { evidence.agree } else { 0 };
        match (Self::of(cites), sites) {
            (standing, 0) => standing,
            (Self::Confirmed | Self::Measured, _) | (_, 2..) => Self::Confirmed,
            (_, 1) => Self::Measured,
        }
    }

    /// Whether it must be confirmed on site before anyone relies on it.
    #[must_use]
    pub fn needs_confirming(self) -> bool {
        matches!(self, Self::LabelOnly | Self::Unverified)
    }
}
