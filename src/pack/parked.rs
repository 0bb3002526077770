//! What is left unused and made safe, and what is left alone.

use super::names::{CoreName, cable_name, cores_in};
use crate::land::{Plan, To};
use crate::model::Job;
use serde::Serialize;

/// A core that nothing uses.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ParkedRow {
    /// Its cable.
    pub cable: String,
    /// Its colour.
    pub core: CoreName,
    /// Where it was.
    pub from: String,
    /// What to do with it.
    pub act: &'static str,
}

/// Every core that is made safe, and every core that is left because nobody has decided.
#[must_use]
pub fn parked(job: &Job, plan: &Plan) -> Vec<ParkedRow> {
    let unused = cores_in(plan).filter(|(_, core)| matches!(core.to, To::Park | To::Leave));
    unused
        .map(|(c, core)| ParkedRow {
            cable: cable_name(job, c).into(),
            core: CoreName::new(&core.colour),
            from: core.from.clone(),
            act: act(&core.to, &core.from),
        })
        .collect()
}

fn act(to: &To, from: &str) -> &'static str {
    match (to, from) {
        (To::Leave, _) => "LEAVE where it is: nobody has decided about its item",
        (_, "unknown") => "treat as live until measured; lift both ends, insulate alone",
        (_, "broken") => "cut back and insulate alone at both ends, marked broken",
        (_, "spare") => "insulate alone at both ends",
        _ => "lift both ends, insulate alone",
    }
}
