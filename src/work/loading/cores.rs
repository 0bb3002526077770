//! The cores of each cable: the largest current in one of them.

use super::super::Loading;
use super::super::draws::{self, When};
use super::row;
use crate::formula::sum::{Part, largest, sum};
use crate::formula::{Given, Worked};
use crate::land::volts::pair_amps;
use crate::land::{Plan, SupplyPair};
use crate::model::Job;
use crate::units::Amps;

/// A row for each cable that carries current and whose rating is known.
pub(super) fn rows(job: &Job<'_>, plan: &Plan) -> Vec<Loading> {
    (0..job.cables.len()).filter_map(|cable| cable_row(job, plan, cable)).collect()
}

/// The row of a cable.
fn cable_row(job: &Job<'_>, plan: &Plan, cable: usize) -> Option<Loading> {
    let rating = job.cables[cable].kind.rating.map(Amps::get)?;
    let pairs: Vec<&SupplyPair> = plan.pairs.iter().filter(|pair| pair.cable == cable).collect();
    let rest: Vec<Part> = pairs.iter().map(|pair| at_rest(job, pair)).collect();
    let mut alarm: Vec<Part> = pairs.iter().flat_map(|pair| in_alarm(job, pair)).collect();
    alarm.extend(trigger_cores(job, plan, cable));
    let (standby, alarm) = (worked_largest(rest), worked_largest(alarm));
    let carries = standby.value != Some(0.0) || alarm.value != Some(0.0);
    let what = format!("core:{}", job.cables[cable].survey.cable);
    carries.then(|| row(what, standby, alarm, Some(rating), Some(rating)))
}

/// The largest of some currents, with each of them behind it.
fn worked_largest(parts: Vec<Part>) -> Worked {
    let amps: Vec<Option<f64>> = parts.iter().map(|part| part.amps).collect();
    Worked::new("largest I", parts.into_iter().map(|part| part.given).collect(), largest(&amps))
}

/// The share of a current that one of some cores carries; `None` without a core.
fn share(symbol: String, amps: Option<f64>, cores: usize, origin: &str) -> Option<Part> {
    let count = u32::try_from(cores).ok().filter(|n| *n > 0)?;
    let amps = amps.map(|amps| amps / f64::from(count));
    Some(Part { given: Given::new(symbol, amps.and_then(Amps::new), origin), amps })
}

/// A pair's standby current over the fewer of its core counts; a side without a core does not count.
fn at_rest(job: &Job<'_>, pair: &SupplyPair) -> Part {
    let amps = sum(&draws::items(job, pair.items.iter().copied(), When::Rest));
    let cores = [pair.positive.len(), pair.negative.len()].into_iter().filter(|n| *n > 0).min().unwrap_or(1);
    let symbol = format!("I({})/{cores}", supply_name(job, pair));
    let amps = amps.map(|amps| amps / f64::from(u32::try_from(cores).unwrap_or(u32::MAX)));
    Part { given: Given::new(symbol, amps.and_then(Amps::new), "standby currents on this pair"), amps }
}

/// What one core of each side of a pair carries in alarm.
fn in_alarm(job: &Job<'_>, pair: &SupplyPair) -> Vec<Part> {
    let amps = pair_amps(job, pair);
    let name = supply_name(job, pair);
    let (positive, negative) = (pair.positive.len(), pair.negative.len());
    let origin = "alarm currents on this pair";
    [
        share(format!("I+({name})/{positive}"), amps.positive, positive, origin),
        share(format!("I-({name})/{negative}"), amps.negative, negative, origin),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What each trigger core of a cable carries. A trigger that fires by removal draws through the pair instead.
fn trigger_cores(job: &Job<'_>, plan: &Plan, cable: usize) -> Vec<Part> {
    let here = |item: usize| plan.item(item).is_some_and(|served| served.cable == cable);
    let planned = plan.triggers.iter().filter(|trigger| here(trigger.item));
    planned
        .filter_map(|planned| {
            let trigger = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
            let own_core = trigger.fires.is_none_or(crate::model::Fires::is_applied);
            own_core.then(|| draws::of_trigger(job, planned.item, trigger))
        })
        .collect()
}

/// The name of the board supply of a pair.
fn supply_name<'a>(job: &'a Job<'_>, pair: &SupplyPair) -> &'a str {
    job.board.supplies.get(pair.supply).map_or("", |supply| supply.supply.as_str())
}
