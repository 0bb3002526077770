//! The figures of a plan: volts at the far end, loading, loops, battery.

mod types;

pub use types::{BatteryFigures, Drop, Figures, Loading, LoopFigure, StateFigure, Verdict};
