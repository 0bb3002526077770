//! What the figures are. `None` is *not known*; an open circuit is said by `StateFigure::open`.

use crate::formula::Worked;
use crate::model::{LoopState, Wiring};

/// All figures of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// Volts at the far end: served items that are fed, and two-wire sounders, in the job's item order.
    pub drops: Vec<Drop>,
    /// Loading: supplies, source, fuses, outputs, cores.
    pub loading: Vec<Loading>,
    /// Loops, in the plan's order.
    pub loops: Vec<LoopFigure>,
    /// The standby battery.
    pub battery: BatteryFigures,
}

/// Volts at one item.
#[derive(Debug, Clone, PartialEq)]
pub struct Drop {
    /// The item, as an index into the job's items.
    pub item: usize,
    /// Its cable, as an index into the job's cables.
    pub cable: usize,
    /// Positive cores in parallel.
    pub positive_cores: usize,
    /// Negative cores in parallel.
    pub negative_cores: usize,
    /// Volts on mains, the lowest of the item's lines.
    pub mains: Worked,
    /// Volts when the battery is nearly flat, the lowest of the item's lines.
    pub battery_end: Worked,
    /// The device's low volts.
    pub needs_low: Option<f64>,
    /// The device's high volts.
    pub needs_high: Option<f64>,
    /// Whether both are within; `None` when that can't be known.
    pub ok: Option<bool>,
    /// For a one-core tamper, the volts by which its pair's negative is lifted; `None` when there is none or it is not known.
    pub tamper_lift: Option<f64>,
}

/// One row of the loading table.
#[derive(Debug, Clone, PartialEq)]
pub struct Loading {
    /// `supply:NAME`, `source`, `fuse:panel:MARK`, `output:NAME`, `core:CABLE` …
    pub what: String,
    /// Amperes at rest.
    pub standby: Worked,
    /// Amperes in alarm.
    pub alarm: Worked,
    /// What it may carry at rest, in amperes.
    pub limit: Option<f64>,
    /// What it may carry in alarm, in amperes.
    pub alarm_limit: Option<f64>,
    /// Whether both are within; `None` when that can't be known.
    pub ok: Option<bool>,
    /// For a fuse: whether it carries more than three quarters of its rating (and not more than all of it).
    pub near: bool,
}

/// A loop in each of its states.
#[derive(Debug, Clone, PartialEq)]
pub struct LoopFigure {
    /// The board input, as an index.
    pub input: usize,
    /// The items on it, as indices into the job's items, in loop order.
    pub items: Vec<usize>,
    /// How it is wired.
    pub wiring: Wiring,
    /// Whether it is the tamper loop.
    pub tamper: bool,
    /// Its states: normal, alarm, tamper, short, as far as its wiring has them.
    pub states: Vec<StateFigure>,
}

/// What a loop reads in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct StateFigure {
    /// The state the loop is in.
    pub state: LoopState,
    /// Whether the circuit is open then: no resistance to state, and known all the same.
    pub open: bool,
    /// Ohms at the board, nominal.
    pub ohms: Worked,
    /// At the low end of the resistors' tolerance and the shortest length.
    pub low: Option<f64>,
    /// At the high end of the resistors' tolerance and the longest length.
    pub high: Option<f64>,
    /// What the board reports; `None` in a gap, or when not known.
    pub reads: Option<LoopState>,
    /// Whether nominal, low and high all read as they should; `None` when that can't be known.
    pub ok: Option<bool>,
}

/// The verdict on the battery that is there, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// A load test that counts passed, and nothing speaks against it.
    Good,
    /// Something to look at again.
    Watch,
    /// Nothing was read.
    Untested,
    /// It must go.
    Replace,
}

impl Verdict {
    /// The word of pack.json.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::Watch => "watch",
            Self::Untested => "untested",
            Self::Replace => "replace",
        }
    }
}

/// The standby battery's figures.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryFigures {
    /// Amperes at rest.
    pub standby: Worked,
    /// Amperes in alarm.
    pub alarm: Worked,
    /// Hours of standby asked.
    pub standby_hours: Option<f64>,
    /// Hours of alarm asked.
    pub alarm_hours: Option<f64>,
    /// Ampere-hours needed, worked for the fitted capacity.
    pub required: Worked,
    /// The capacity that counts: the new battery's, else the one that is there.
    pub fitted_ah: Option<f64>,
    /// Whether it is enough.
    pub enough: Option<bool>,
    /// The smallest of the source's capacities that is enough, in ampere-hours; no value: none is, or not known.
    pub smallest_enough: Worked,
    /// Hours to come back to 80 %.
    pub recharge: Worked,
    /// Hours within which it must.
    pub recharge_limit_hours: Option<f64>,
    /// The verdict on the battery that is there.
    pub verdict: Verdict,
    /// Why, each on its own.
    pub reasons: Vec<String>,
}
