//! The figures of a plan: volts at the far end, loading, loops, battery.

pub mod alone;
mod battery;
pub mod cure;
mod draws;
mod drops;
mod loading;
mod loops;
mod origin;
mod types;

pub use battery::{Sound, sound_battery};
pub use types::{BatteryFigures, Drop, Figures, Loading, LoopFigure, StateFigure, Verdict};

use crate::land::Plan;
use crate::model::Job;

/// Works every figure of a plan: sections 5.2 to 5.5 of the design. Whatever is not known, or comes out as no finite
/// number, is `None`, and so is everything that rests on it.
#[must_use]
pub fn work(job: &Job<'_>, plan: &Plan) -> Figures {
    Figures {
        drops: drops::drops(job, plan),
        loading: loading::loading(job, plan),
        loops: loops::loops(job, plan),
        battery: battery::battery(job, plan),
    }
}
