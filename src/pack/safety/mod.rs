//! Safety, in order, made for this job from what is known, what is absent and what nobody asked. The order is
//! *common practice*; what changes it is the external sounder (`sounder`).

mod back;
mod cautions;
mod down;
mod facts;
mod halts;
mod own;
mod sounder;

pub(super) use cautions::USUAL;
pub(super) use down::{battery_marks, mains_marks, prove_dead};

use crate::land::Plan;
use crate::model::Job;
use crate::work::Figures;
use serde::Serialize;

pub use facts::Fact;
pub use sounder::{Bell, Fate};

/// Safety as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SafetyView {
    /// The sentence that stands above everything.
    pub law: &'static str,
    /// What forbids even the first step; empty when nothing does.
    pub halts: Vec<String>,
    /// What the steps rest on.
    pub facts: Vec<Fact>,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// When to stop and call for help.
    pub stop: Vec<&'static str>,
    /// The usual cautions, then those of the cards.
    pub cautions: Vec<String>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// A word for it that stays the same from job to job.
    pub key: &'static str,
    /// What to do, in a few words.
    pub title: String,
    /// How, line by line.
    pub lines: Vec<String>,
}

impl Step {
    /// A step with its lines.
    fn new(key: &'static str, title: impl Into<String>, lines: Vec<String>) -> Self {
        Self { key, title: title.into(), lines }
    }
}

/// The sentence that stands above everything.
pub(super) const LAW: &str = "Local codes and licensed practice come before anything printed here. Work on the fixed mains \
                   wiring is for a person licensed to do it.";

/// When to stop and call for help, whatever is being done.
pub(super) const STOP: [&str; 4] = [
    "Water in a sounder, a device or the panel.",
    "Scorching, melted insulation, or a smell of burning.",
    "An unknown cable, or any core, with more than 25 V AC on it.",
    "No mains isolator, or one that does not make the panel dead.",
];

const NOT_AS_SAID: &str = "Anything that is not as this pack says: a mark, a core, a voltage.";

/// The safety steps of a job.
#[must_use]
pub fn safety(job: &Job, plan: &Plan, figures: &Figures) -> SafetyView {
    let bells = sounder::bells(job);
    let mut steps = down::steps(job, figures, &bells);
    steps.extend(back::steps(job, plan, &bells));
    SafetyView {
        law: LAW,
        halts: halts::halts(job),
        facts: facts::facts(job, figures, &bells),
        steps,
        stop: STOP.into_iter().chain([NOT_AS_SAID]).collect(),
        cautions: cautions::cautions(job),
    }
}
