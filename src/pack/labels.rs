//! Labels to wrap round the cores: one for every core of every cable, whatever becomes of it.

use super::names::{CoreName, cable_name, cores_in};
use crate::land::{Plan, To};
use crate::model::Job;
use serde::Serialize;

/// The label of a core.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// Its cable.
    pub cable: String,
    /// Its colour.
    pub core: CoreName,
    /// Where it was on the old panel; `spare` and the like are the survey's words.
    pub from: String,
    /// Where it goes.
    pub to: String,
}

/// The labels of a job, in cable order.
#[must_use]
pub fn labels(job: &Job, plan: &Plan) -> Vec<Label> {
    let label = |(cable, core): (usize, &crate::land::PlannedCore)| Label {
        cable: cable_name(job, cable).into(),
        core: CoreName::new(&core.colour),
        from: core.from.clone(),
        to: to(&core.to),
    };
    cores_in(plan).map(label).collect()
}

/// Where a core goes, in so few words that they fit.
fn to(to: &To) -> String {
    match to {
        To::Terminal(mark) => mark.clone(),
        To::Join(name) => format!("join {name}"),
        To::Park => "made safe".into(),
        To::Leave => "left there".into(),
    }
}
