//! The one tamper loop: the tamper contacts of its items in series.

use super::super::StateFigure;
use super::parts::{Corner, given_cables, given_series, series};
use super::state;
use crate::formula::{Given, Worked, loops};
use crate::land::Plan;
use crate::model::{Job, LoopState, Returns, Wiring};

/// Normal: the sum over its items of `c + st`; alarm: open.
pub(super) fn states(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<StateFigure> {
    let wiring = Wiring::ClosedLoop;
    let at = |corner: Corner| {
        items.iter().try_fold(0.0, |so_far, item| of_item(job, plan, *item, corner).map(|ohms| so_far + ohms))
    };
    let mut given = given_cables(job, plan, items);
    given.extend(items.iter().filter_map(|item| given_negatives(job, plan, *item)));
    given.extend(given_series(job, items, "st", true));
    let one_core = items.iter().any(|item| is_one_core(job, *item));
    let formula = if one_core { "sum of 2·r·L + st; one core: r·L + r·L/n- + st" } else { "sum of 2·r·L + st" };
    let normal = Worked::new(formula, given, at(Corner::Nominal));
    vec![
        state::closed(job.board, wiring, LoopState::Normal, normal, at),
        state::open(job.board, wiring, LoopState::Alarm),
    ]
}

/// One item's share of the loop.
fn of_item(job: &Job<'_>, plan: &Plan, item: usize, corner: Corner) -> Option<f64> {
    let core = corner.core(job, plan, plan.item(item)?.cable)?;
    let cable = if is_one_core(job, item) { loops::one_core(core, negatives(plan, item))? } else { 2.0 * core };
    Some(loops::closed(cable, series(&job.items.get(item)?.device.tamper)))
}

/// Whether an item's tamper goes out on one core and comes back over the supply negative.
fn is_one_core(job: &Job<'_>, item: usize) -> bool {
    job.items.get(item).is_some_and(|item| item.device.tamper_returns() == Some(Returns::Negative))
}

/// How many supply negative cores an item has in its cable.
fn negatives(plan: &Plan, item: usize) -> usize {
    plan.pair_of(item).map_or(0, |pair| pair.negative.len())
}

/// The number behind a one-core tamper's way back.
fn given_negatives(job: &Job<'_>, plan: &Plan, item: usize) -> Option<Given> {
    let name = is_one_core(job, item).then(|| job.items.get(item))??.name();
    Some(Given::new(format!("n-({name})"), Some(negatives(plan, item)), "plan"))
}
