//! `unmonitored`: a tamper contact that nothing watches: its lid can be opened and nobody hears of it.

use super::case::Case;
use super::types::{Finding, Level};
use crate::model::Wiring;

const CODE: &str = "unmonitored";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for planned in &case.plan.items {
        let Some(item) = case.job.items.get(planned.item) else { continue };
        let Some(Ok(chosen)) = case.plan.choice.items.get(planned.item) else { continue };
        let watched = chosen.in_tamper_loop || planned.method.wiring() == Some(Wiring::DoubleEol);
        if item.device.tamper.get().is_none() || watched {
            continue;
        }
        let says = format!(
            "The tamper contact of {} is not monitored (wired {}). Say so to the customer; a cable with more cores \
             would cure it.",
            item.name(),
            planned.method.word()
        );
        let level = if item.keep() { Level::Warning } else { Level::Note };
        found.push(Finding::note(CODE, item.name(), says).at(level));
    }
    found
}
