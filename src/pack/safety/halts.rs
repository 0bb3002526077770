//! What forbids even the first step.

use crate::model::{Fact, Job};

/// Above so many alternating volts an alarm cable is not touched (*common practice*).
const TOUCHABLE: f64 = 25.0;

/// What forbids even the first step, line by line.
#[must_use]
pub(super) fn halts(job: &Job) -> Vec<String> {
    let mut lines = Vec::new();
    match job.survey.isolator {
        Fact::Absent => lines.push(
            "STOP: there is NO MAINS ISOLATOR. Do not open the panel until a person licensed to do it has fitted one."
                .into(),
        ),
        Fact::NotKnown => lines.push(
            "NOT ASKED where the mains isolator is. Find it before the panel is opened; if there is none: STOP.".into(),
        ),
        Fact::Is(_) => {}
    }
    let live = job.survey.cables.iter().filter_map(|c| Some((&c.cable, c.ac.filter(|v| v.get() > TOUCHABLE)?)));
    lines.extend(
        live.map(|(cable, volts)| format!("STOP: {cable} carries {volts} AC. Do not touch it; call for help.")),
    );
    lines
}
