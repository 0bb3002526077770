//! End-of-line and pull-up resistors, and links.

use super::Part;
use crate::formula::preferred::{Series, nearest};
use crate::land::Plan;
use crate::model::Job;
use crate::pack::links::pull_ups;
use crate::pack::quiet::quiet;
use crate::pack::resistors::{to_bring, unknown_to_bring};
use crate::pack::settings::unused_inputs;
use crate::units::Ohms;

pub(super) fn resistors(job: &Job, plan: &Plan) -> Vec<Part> {
    let tolerance = job.board.eol.tolerance.map(|t| format!(", {t} or better")).unwrap_or_default();
    let mut parts: Vec<Part> = to_bring(job, plan)
        .into_iter()
        .map(|(ohms, count)| {
            Part::new(
                count,
                format!("{ohms} resistor{}{tolerance}", off_series(ohms)),
                "end-of-line, inside the devices",
            )
        })
        .collect();
    let unknown = unknown_to_bring(job, plan);
    if unknown > 0 {
        let what = "end-of-line resistor, value not known: ............ Ω";
        parts.push(Part::new(unknown, what, "inside the devices; the board's card does not give it"));
    }
    parts.extend(pull_ups(job, plan).into_iter().map(|link| {
        let why = format!("pull-up from {} to {}: {}", link.from, link.to, link.why);
        Part::new(1, link.fit, why)
    }));
    parts.extend(counted(unused_inputs(job, plan).into_iter().map(|link| link.fit), "unused inputs"));
    let links = quiet(job).map(|q| q.links).unwrap_or_default();
    parts.extend(counted(links.into_iter().filter_map(|link| link.part), "keeps the old panel quiet"));
    parts
}

/// What to buy when a value is in no common series: the nearest that is (IEC 60063).
fn off_series(ohms: Ohms) -> String {
    let sold = |series| nearest(series, ohms);
    let (Some(e24), Some(e96)) = (sold(Series::E24), sold(Series::E96)) else { return String::new() };
    if e24.same(ohms) || e96.same(ohms) {
        return String::new();
    }
    format!(" (not a value that is sold: nearest in E24 {e24}, in E96 {e96}; ask what the board allows)")
}

/// Parts of the same kind as one row, in the order of the first of each.
fn counted(parts: impl Iterator<Item = String>, why: &str) -> Vec<Part> {
    let mut rows: Vec<Part> = Vec::new();
    for what in parts {
        match rows.iter_mut().find(|p| p.what == what) {
            Some(row) => row.count += 1,
            None => rows.push(Part::new(1, what, why)),
        }
    }
    rows
}
