//! What a plan is.

use crate::choose::{Choice, Method};
use crate::model::{Function, Mark, Wiring};
use std::fmt;

/// Where a core goes.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum To {
    /// Onto a terminal of the board.
    Terminal(Mark),
    /// Joined with the other cores of this name.
    Join(String),
    /// Made safe and left: insulated alone.
    Park,
    /// Not touched: it belongs to an item that nobody has decided about.
    Leave,
}

impl fmt::Display for To {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Terminal(mark) => f.write_str(mark),
            Self::Join(name) => write!(f, "join {name}"),
            Self::Park => f.write_str("park"),
            Self::Leave => f.write_str("leave"),
        }
    }
}

/// One core of one cable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedCore {
    /// Its colour.
    pub colour: String,
    /// What it is for from now on.
    pub function: Function,
    /// The old panel's mark, or the survey's word.
    pub from: String,
    /// Where it goes.
    pub to: To,
    /// The items that use it, as indices into the job's items, in their order.
    pub items: Vec<usize>,
    /// Whether it is on the function it had before, so its far end stays as it is.
    pub kept: bool,
    /// Whether it was added to carry the current of a supply core beside it.
    pub doubled: bool,
}

/// A cable, every core of it, in cable order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedCable {
    /// Its cores, in cable order: index for index those of the job's cable.
    pub cores: Vec<PlannedCore>,
}

/// A served item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedItem {
    /// The item, as an index into the job's items.
    pub item: usize,
    /// Its cable, as an index into the job's cables.
    pub cable: usize,
    /// How its contacts are wired.
    pub method: Method,
    /// The input of its alarm loop, as an index into the board's.
    pub input: Option<usize>,
    /// Its cores, as indices into its cable's: supply+ (all), supply− (all), contacts, triggers, data.
    pub cores: Vec<usize>,
    /// A free usable core of its cable to fall back on.
    pub spare: Option<usize>,
}

/// A supply pair of one board supply on one cable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SupplyPair {
    /// The cable.
    pub cable: usize,
    /// The board supply.
    pub supply: usize,
    /// The positive cores, in cable order; empty when no item needs one.
    pub positive: Vec<usize>,
    /// The negative cores, in cable order; empty when no item needs one.
    pub negative: Vec<usize>,
    /// The items it feeds, as indices into the job's items.
    pub items: Vec<usize>,
}

/// A trigger with the output that fires it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedTrigger {
    /// The item.
    pub item: usize,
    /// Which of its device's triggers.
    pub trigger: usize,
    /// The board output, as an index.
    pub output: usize,
    /// `open-collector`, `normally-open` or `normally-closed`.
    pub contact: &'static str,
    /// The terminal on which its core lands.
    pub terminal: Mark,
    /// For a relay, the board terminal to which its common is wired and whether that is the positive one.
    pub common: Option<(Mark, bool)>,
    /// Its core, as an index into its cable's.
    pub core: usize,
}

/// A loop on an input: an alarm loop, or the tamper loop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedLoop {
    /// The board input, as an index.
    pub input: usize,
    /// The items on it, in the order of the loop.
    pub items: Vec<usize>,
    /// How it is wired.
    pub wiring: Wiring,
    /// Whether it is the tamper loop.
    pub tamper: bool,
    /// Whether its last tamper comes back over the supply negative.
    pub ends_at_negative: bool,
}

/// How long a cable is, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableLength {
    /// The shortest it may be.
    pub shortest: f64,
    /// The longest it may be.
    pub longest: f64,
    /// Whether it was worked from a measured loop.
    pub worked: bool,
}

/// Where every core goes.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The choice it lands.
    pub choice: Choice,
    /// The served items, in the job's order.
    pub items: Vec<PlannedItem>,
    /// Every cable, in the job's order.
    pub cables: Vec<PlannedCable>,
    /// The supply pairs, by cable and then by supply.
    pub pairs: Vec<SupplyPair>,
    /// The triggers, by item and then in card order.
    pub triggers: Vec<PlannedTrigger>,
    /// The alarm loops in the board's input order, then the tamper loop.
    pub loops: Vec<PlannedLoop>,
    /// For each cable of the job, its length; `None`: not known.
    pub lengths: Vec<Option<CableLength>>,
}

impl Plan {
    /// The tamper loop, if any item joins it.
    #[must_use]
    pub fn tamper_loop(&self) -> Option<&PlannedLoop> {
        self.loops.iter().find(|l| l.tamper)
    }

    /// The plan of an item, if it is served.
    #[must_use]
    pub fn item(&self, item: usize) -> Option<&PlannedItem> {
        self.items.iter().find(|p| p.item == item)
    }

    /// The supply pair that feeds an item, if it has one.
    #[must_use]
    pub fn pair_of(&self, item: usize) -> Option<&SupplyPair> {
        self.pairs.iter().find(|p| p.items.contains(&item))
    }
}
