//! The parts that the plan asks for.

mod battery;
mod resistors;
mod small;
mod unserved;

use super::panel::right_fuse;
use crate::land::Plan;
use crate::model::{FuseFound, Job, Power};
use crate::units::Ohms;
use crate::work::Figures;
use serde::{Deserialize, Serialize};

/// A part to bring.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Part {
    /// How many.
    pub count: usize,
    /// What.
    pub what: String,
    /// What for.
    pub why: String,
}

impl Part {
    fn new(count: usize, what: impl Into<String>, why: impl Into<String>) -> Self {
        Self { count, what: what.into(), why: why.into() }
    }
}

/// The size of a pull-up resistor across 15 V: twice what it turns into heat, *common practice*.
#[must_use]
pub fn watts(ohms: Ohms) -> &'static str {
    match ohms.get() {
        r if r >= 1800.0 => "¼ W",
        r if r >= 900.0 => "½ W",
        r if r >= 450.0 => "1 W",
        _ => "2 W or more",
    }
}

/// Everything that the plan asks for.
#[must_use]
pub fn parts(job: &Job, plan: &Plan, figures: &Figures) -> Vec<Part> {
    let mut parts = vec![Part::new(1, job.board.unit.name(), "the new board")];
    if let Some(source) = job.source.as_ref().filter(|s| matches!(s.power, Power::Supply(_))) {
        parts.push(Part::new(1, source.unit.name(), "feeds the board and its devices"));
    }
    parts.extend(battery::battery(job, figures));
    parts.extend(devices(job, plan));
    parts.extend(unserved::unserved(job, plan));
    parts.extend(resistors::resistors(job, plan));
    parts.extend(fuses(job));
    parts.extend(small::small(job, plan));
    parts
}

/// New devices, each kind once.
fn devices(job: &Job, plan: &Plan) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for (at, item) in job.items.iter().enumerate().filter(|(_, i)| !i.keep()) {
        let what = item.device.does.clone().unwrap_or_else(|| item.device.id.clone());
        let why = match plan.item(at) {
            Some(_) => item.name().to_string(),
            None => format!("{} (UNSERVED as planned)", item.name()),
        };
        match parts.iter_mut().find(|p| p.what == what) {
            Some(part) => {
                part.count += 1;
                part.why = format!("{}, {why}", part.why);
            }
            None => parts.push(Part::new(1, what, why)),
        }
    }
    parts
}

/// The right fuses for those found wrong, blown, bridged or missing.
fn fuses(job: &Job) -> Vec<Part> {
    let open = job.survey.fuses.iter().filter(|(mark, _)| settled(job, mark).is_none());
    let wrong = open.filter_map(|(mark, found)| {
        let fuse = job.panel.unit.fuse(mark)?;
        let right = match found {
            FuseFound::Fitted(rating, speed) => {
                Some(*rating) == fuse.rating && (speed.is_none() || *speed == fuse.speed)
            }
            FuseFound::Unknown => true,
            FuseFound::Blown | FuseFound::Bridged | FuseFound::Missing => false,
        };
        let why = format!("{mark} of the old panel; same breaking capacity as the old type");
        (!right).then(|| Part::new(1, format!("fuse {}", right_fuse(fuse)), why))
    });
    wrong.collect()
}

/// What somebody wrote who looked into a wrong fuse and answers for it.
#[must_use]
pub fn settled<'a>(job: &Job<'a>, mark: &str) -> Option<&'a str> {
    let about = job.survey.settled.iter().filter(|s| s.about == mark);
    about.filter(|s| s.code.starts_with("fuse-")).map(|s| s.says.as_str()).next()
}
