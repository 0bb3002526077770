//! On which side of the supply a fact is, and in what way: a trigger that fires negative may stand at 12 V at rest, so
//! it is never simply called negative.

use super::mark::Sign;
use crate::model::Fires;

/// How a fact belongs to a side of the supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// It is that side.
    Is(Sign),
    /// It fires a sounder or a strobe by putting on or taking away that side.
    Fires(Fires),
    /// It is a device that all its triggers fire by that side.
    FiredBy(Sign),
    /// It is a tamper that comes back on that side.
    Returns(Sign),
    /// It is an output that switches its terminal to that side.
    Switches(Sign),
}

impl Side {
    const ALL: [Self; 12] = [
        Self::Is(Sign::Plus),
        Self::Is(Sign::Minus),
        Self::Fires(Fires::NegativeApplied),
        Self::Fires(Fires::NegativeRemoved),
        Self::Fires(Fires::PositiveApplied),
        Self::Fires(Fires::PositiveRemoved),
        Self::FiredBy(Sign::Plus),
        Self::FiredBy(Sign::Minus),
        Self::Returns(Sign::Plus),
        Self::Returns(Sign::Minus),
        Self::Switches(Sign::Plus),
        Self::Switches(Sign::Minus),
    ];

    /// The side as a sign: what a question that asks for a side is held against.
    #[must_use]
    pub fn sign(self) -> Sign {
        match self {
            Self::Is(sign) | Self::FiredBy(sign) | Self::Returns(sign) | Self::Switches(sign) => sign,
            Self::Fires(fires) => switched(fires),
        }
    }

    /// The side that it is; none of what only switches one or comes back on one.
    #[must_use]
    pub fn itself(self) -> Option<Sign> {
        if let Self::Is(sign) = self { Some(sign) } else { None }
    }

    /// How it is told: `negative`, `negative-applied`, `returns negative`, `switches to negative`.
    #[must_use]
    pub fn told(self) -> &'static str {
        match self {
            Self::Is(sign) => sign.word(),
            Self::Fires(fires) => fires.word(),
            Self::FiredBy(Sign::Plus) => "fired by positive",
            Self::FiredBy(Sign::Minus) => "fired by negative",
            Self::Returns(Sign::Plus) => "returns positive",
            Self::Returns(Sign::Minus) => "returns negative",
            Self::Switches(Sign::Plus) => "switches to positive",
            Self::Switches(Sign::Minus) => "switches to negative",
        }
    }

    /// The side that is told so.
    pub(super) fn from_told(told: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|side| side.told() == told)
    }
}

/// The side that is put on or taken away.
pub(super) fn switched(fires: Fires) -> Sign {
    if fires.is_negative() { Sign::Minus } else { Sign::Plus }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_told_in_words_of_its_own_that_name_its_side() {
        for side in Side::ALL {
            assert_eq!(Side::from_told(side.told()), Some(side));
            assert!(side.told().contains(side.sign().word()) && !side.told().contains(side.sign().opposite().word()));
        }
    }
}
