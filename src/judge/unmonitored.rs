//! `unmonitored`: a tamper contact that nothing watches: its lid can be opened and nobody hears of it.

use super::case::Case;
use super::types::{Finding, Level};
use crate::model::{Device, Returns, Wiring};

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
            "The tamper contact of {} is not monitored (wired {}): {}. Say so to the customer.",
            item.name(),
            planned.method.word(),
            why(item.device)
        );
        let level = if item.keep() { Level::Warning } else { Level::Note };
        found.push(Finding::note(CODE, item.name(), says).at(level));
    }
    found
}

/// Why no loop watches a tamper contact.
fn why(device: &Device) -> &'static str {
    match device.tamper_returns() {
        Some(Returns::Positive) => "it returns to the supply positive and can join no loop",
        None => "nobody knows what it returns to, so it can join no loop",
        Some(Returns::Pair | Returns::Negative) => {
            "the cores, the inputs or the one tamper loop do not reach for it; more cores or an expander would"
        }
    }
}
