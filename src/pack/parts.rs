//! The parts that the plan asks for.

use super::names::cores_in;
use super::panel::right_fuse;
use super::resistors::to_bring;
use super::settings::unused_inputs;
use crate::land::{Plan, To};
use crate::model::{FuseFound, Job, Power};
use crate::units::Ohms;
use serde::Serialize;

/// A part to bring.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Part {
    /// How many.
    pub count: usize,
    /// What.
    pub what: String,
    /// What for.
    pub why: String,
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
pub fn parts(job: &Job, plan: &Plan) -> Vec<Part> {
    let mut parts = vec![Part { count: 1, what: job.board.unit.name(), why: "the new board".into() }];
    if let Some(source) = job.source.as_ref().filter(|s| matches!(s.power, Power::Supply(_))) {
        parts.push(Part { count: 1, what: source.unit.name(), why: "feeds the board and its devices".into() });
    }
    if let Some(battery) = job.survey.new_battery {
        let name = job.source.as_ref().map_or_else(|| "the power source".into(), |s| s.unit.name());
        let why = format!("standby battery of {name}");
        parts.push(Part { count: 1, what: format!("{battery} sealed lead-acid battery, 12 V"), why });
    }
    parts.extend(devices(job, plan));
    parts.extend(resistors(job, plan));
    parts.extend(fuses(job));
    parts.extend(small(plan));
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
            None => parts.push(Part { count: 1, what, why }),
        }
    }
    parts
}

/// End-of-line and pull-up resistors.
fn resistors(job: &Job, plan: &Plan) -> Vec<Part> {
    let tolerance = job.board.eol.tolerance.map(|t| format!(", {t} or better")).unwrap_or_default();
    let eol = to_bring(job, plan).into_iter().map(|(ohms, count)| Part {
        count,
        what: format!("{ohms} resistor{tolerance}"),
        why: "end-of-line, inside the devices".into(),
    });
    let pull_ups = super::links::pull_ups(job, plan).into_iter().map(|link| Part {
        count: 1,
        what: link.fit.clone(),
        why: format!("pull-up from {} to {}: {}", link.from, link.to, link.why),
    });
    let unused = counted(unused_inputs(job, plan).into_iter().map(|link| link.fit), "unused inputs");
    let links = super::quiet::quiet(job).map(|q| q.links).unwrap_or_default();
    let quiet = counted(links.into_iter().filter_map(|link| link.part), "keeps the old panel quiet");
    eol.chain(pull_ups).chain(unused).chain(quiet).collect()
}

/// Parts of the same kind as one row, in the order of the first of each.
fn counted(parts: impl Iterator<Item = String>, why: &str) -> Vec<Part> {
    let mut rows: Vec<Part> = Vec::new();
    for what in parts {
        match rows.iter_mut().find(|p| p.what == what) {
            Some(row) => row.count += 1,
            None => rows.push(Part { count: 1, what, why: why.into() }),
        }
    }
    rows
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
        (!right).then(|| Part {
            count: 1,
            what: format!("fuse {}", right_fuse(fuse)),
            why: format!("{mark} of the old panel; same breaking capacity as the old type"),
        })
    });
    wrong.collect()
}

/// What somebody wrote who looked into a wrong fuse and answers for it.
#[must_use]
pub fn settled<'a>(job: &Job<'a>, mark: &str) -> Option<&'a str> {
    let about = job.survey.settled.iter().filter(|s| s.about == mark);
    about.filter(|s| s.code.starts_with("fuse-")).map(|s| s.says.as_str()).next()
}

/// Connectors and insulation.
fn small(plan: &Plan) -> Vec<Part> {
    let mut joins: Vec<&str> = Vec::new();
    let mut parked = 0;
    for (_, core) in cores_in(plan) {
        match &core.to {
            To::Join(name) if !joins.contains(&name.as_str()) => joins.push(name),
            To::Park => parked += 1,
            _ => {}
        }
    }
    let joins = Part { count: joins.len(), what: "crimp or soldered joint".into(), why: "joins of the loops".into() };
    let ends = Part {
        count: 2 * parked,
        what: "insulated end cap".into(),
        why: "both ends of every unused core, each alone".into(),
    };
    [joins, ends].into_iter().filter(|p| p.count > 0).collect()
}
