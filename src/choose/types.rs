//! What a choice is.

use crate::model::Wiring;

/// How an item's contacts are wired.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Method {
    /// Alarm on a closed loop, tamper in the tamper loop.
    Pairs,
    /// One end-of-line resistor; a tamper contact goes into the tamper loop.
    SingleEol,
    /// Two end-of-line resistors: alarm and tamper on one pair.
    DoubleEol,
    /// The alarm contact on a closed loop, any tamper contact given up.
    AlarmOnly,
    /// No alarm contact; the tamper goes into the tamper loop.
    TamperOnly,
    /// No contacts wired.
    None,
}

impl Method {
    /// Every method, in the order that breaks ties.
    pub const ALL: [Self; 6] =
        [Self::Pairs, Self::SingleEol, Self::DoubleEol, Self::AlarmOnly, Self::TamperOnly, Self::None];

    /// The word of pack.json.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pairs => "pairs",
            Self::SingleEol => "single-eol",
            Self::DoubleEol => "double-eol",
            Self::AlarmOnly => "alarm-only",
            Self::TamperOnly => "tamper-only",
            Self::None => "none",
        }
    }

    /// The wiring of the alarm loop, where there is one.
    #[must_use]
    pub fn wiring(self) -> Option<Wiring> {
        match self {
            Self::Pairs | Self::AlarmOnly => Some(Wiring::ClosedLoop),
            Self::SingleEol => Some(Wiring::SingleEol),
            Self::DoubleEol => Some(Wiring::DoubleEol),
            Self::TamperOnly | Self::None => None,
        }
    }
}

/// The plan's seven numbers, compared in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Cost {
    /// `must` items left without a wiring.
    pub unserved_must: u32,
    /// `want` items left without a wiring.
    pub unserved_want: u32,
    /// Served items with a tamper contact that is not monitored.
    pub unmonitored: u32,
    /// Over all inputs with alarm loops, the loops on it less one.
    pub shared: u32,
    /// Kept items whose device must be opened for resistors.
    pub opened: u32,
    /// Cores whose far end must be re-landed.
    pub moved: u32,
    /// Cores used in all, before any is doubled.
    pub used: u32,
}

/// What was chosen for one item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chosen {
    /// The cable, as an index into the job's cables.
    pub cable: usize,
    /// How its contacts are wired.
    pub method: Method,
    /// The board supply that feeds it, as an index; `None`: it needs none.
    pub supply: Option<usize>,
    /// The board input of its alarm loop, as an index.
    pub input: Option<usize>,
    /// For each of the device's triggers, the board output, as an index.
    pub outputs: Vec<usize>,
    /// Whether its tamper is in the tamper loop.
    pub in_tamper_loop: bool,
}

/// Why an item is left without a wiring.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Shortage {
    /// No cable goes to its place.
    NoCable,
    /// A reason in its own data that no plan could cure: a contact that is not normally closed, a speaker that
    /// needs a tone drive, a trigger of which nobody knows how it fires, a bus the board does not speak, no supply
    /// that may feed it.
    NotPlanned(String),
    /// Its cable is this many usable cores short, of this many that it needs there.
    Cores {
        /// How many more would do.
        short: u32,
        /// How many it needs in all.
        needs: u32,
    },
    /// No input of the wiring it needs is left.
    Inputs,
    /// No output is left that fires this trigger this way.
    Outputs {
        /// The trigger's name.
        trigger: String,
        /// How it fires.
        fires: crate::model::Fires,
    },
}

/// The choice for a whole job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// For each item of the job, in its order.
    pub items: Vec<Result<Chosen, Shortage>>,
    /// The board input of the tamper loop, as an index.
    pub tamper_input: Option<usize>,
    /// The seven numbers.
    pub cost: Cost,
    /// Trigger names beyond the first on an output, summed over outputs.
    pub mixed_outputs: u32,
    /// Whether this is proven to be the optimum.
    pub proven: bool,
}

impl std::fmt::Display for Shortage {
    /// Why the item is left, and what would serve it.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoCable => f.write_str("no cable goes to its place; a new cable would serve it"),
            Self::NotPlanned(reason) => f.write_str(reason),
            Self::Cores { short, needs } => {
                let cores = if *short == 1 { "core" } else { "cores" };
                write!(f, "its cable is {short} usable {cores} short; a new cable of {needs} cores would serve it")
            }
            Self::Inputs => f.write_str("no input of the wiring it needs is left; an expander would serve it"),
            Self::Outputs { trigger, fires } => {
                write!(f, "no output is left that fires {trigger} by {}; a relay would serve it", fires.word())
            }
        }
    }
}
