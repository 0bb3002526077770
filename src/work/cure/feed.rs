//! A source whose volts do not suit the board: what it must give.

use super::show;
use crate::land::volts::CUTOFF_ASSUMED;
use crate::model::{Job, Power};
use crate::units::Volts;

/// What the source must give. `None` in a field: that is right as it is, or not known.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedCure {
    /// Volts by which it must rise on mains (below nothing: fall).
    pub mains: Option<f64>,
    /// Volts by which its cut-off must rise (below nothing: fall).
    pub cutoff: Option<f64>,
    /// The lowest that the board may be fed.
    pub low: f64,
    /// The highest that the board may be fed.
    pub high: f64,
}

/// What would bring the source's volts to the board's; `None` when they are right, not known or not asked.
#[must_use]
pub fn feed(job: &Job<'_>) -> Option<FeedCure> {
    let source = job.source.as_ref().filter(|source| !matches!(source.power, Power::Board))?;
    let block = source.block?;
    let window = job.board.feed.as_ref()?.volts?;
    let (low, high) = (window.low.get(), window.high.get());
    let off = |volts: Option<f64>| match volts? {
        volts if volts < low => Some(low - volts),
        volts if volts > high => Some(high - volts),
        _ => None,
    };
    let cutoff = block.cutoff.map_or(CUTOFF_ASSUMED, Volts::get);
    let cure = FeedCure { mains: off(block.volts.map(Volts::get)), cutoff: off(Some(cutoff)), low, high };
    (cure.mains.is_some() || cure.cutoff.is_some()).then_some(cure)
}

impl FeedCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self) -> String {
        let by = |off: f64| match off {
            more if more > 0.0 => format!("{} more than now", show::volts_up(more)),
            less => format!("{} less than now", show::volts_up(-less)),
        };
        let (low, high) = (show::volts(self.low), show::volts(self.high));
        let mains = self.mains.map(|off| format!("give {low} to {high} on mains ({})", by(off)));
        let cutoff = self.cutoff.map(|off| format!("drop its battery between {low} and {high} ({})", by(off)));
        let must: Vec<String> = [mains, cutoff].into_iter().flatten().collect();
        format!("The source must {}.", must.join(" and "))
    }
}
