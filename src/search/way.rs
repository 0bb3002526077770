//! A way to find a thing in a fact, with what it counts.

use std::collections::BTreeSet;
use tantivy::query::Query;

/// More scores than this are not told apart.
const MANY: usize = 2048;

/// A way to find a thing. Scores are in steps.
pub(super) enum Way {
    /// What the query finds; each fact scores this.
    One { query: Box<dyn Query>, score: u32 },
    /// Several things in one fact, each in the best of its ways; what they count is summed.
    Together(Vec<Vec<Way>>),
}

impl Clone for Way {
    fn clone(&self) -> Self {
        match self {
            Self::One { query, score } => Self::One { query: query.box_clone(), score: *score },
            Self::Together(things) => Self::Together(things.clone()),
        }
    }
}

impl Way {
    /// Several things in one fact; `None` when there is no way for one of them.
    pub(super) fn together(things: Vec<Vec<Way>>) -> Option<Self> {
        things.iter().all(|ways| !ways.is_empty()).then_some(Self::Together(things))
    }

    /// What it counts at most.
    pub(super) fn most(&self) -> u32 {
        match self {
            Self::One { score, .. } => *score,
            Self::Together(things) => things.iter().map(|ways| most(ways)).sum(),
        }
    }

    fn scores(&self) -> Option<BTreeSet<u32>> {
        match self {
            Self::One { score, .. } => Some(BTreeSet::from([*score])),
            Self::Together(things) => scores_together(things.iter().map(Vec::as_slice)),
        }
    }
}

/// What the best of some ways counts at most.
pub(super) fn most(ways: &[Way]) -> u32 {
    ways.iter().map(Way::most).max().unwrap_or_default()
}

/// Every score that the best of some ways can have; `None` when they are too many.
pub(super) fn scores(ways: &[Way]) -> Option<BTreeSet<u32>> {
    let each: Option<Vec<_>> = ways.iter().map(Way::scores).collect();
    Some(each?.into_iter().flatten().collect())
}

/// Every sum of one score of each thing; `None` when they are too many.
fn scores_together<'a>(things: impl Iterator<Item = &'a [Way]>) -> Option<BTreeSet<u32>> {
    let mut sums = BTreeSet::from([0]);
    for ways in things {
        sums = with_each(&sums, &scores(ways)?)?;
    }
    Some(sums)
}

/// Every sum of one of these and one of those; `None` when they are too many.
pub(super) fn with_each(sums: &BTreeSet<u32>, scores: &BTreeSet<u32>) -> Option<BTreeSet<u32>> {
    if sums.len() * scores.len() > MANY {
        return None;
    }
    Some(sums.iter().flat_map(|sum| scores.iter().map(move |score| sum + score)).collect())
}
