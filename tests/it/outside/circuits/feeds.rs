//! Supply pairs: the source, every core of both sides, every trigger core, and what each item draws in alarm.

use super::{Bench, Probe, Worked};
use crate::outside::cable::core_ohms;
use wirelore::land::SupplyPair;
use wirelore::model::{Device, DeviceTrigger, Fires};
use wirelore::units::{Amps, Volts};
use wirelore::work::Drop;

/// Every pair of a site, on mains and at the end of the battery.
pub(super) fn add(bench: &mut Bench, site: &Worked<'_>) {
    let Some(block) = site.job.source.as_ref().and_then(|source| source.block) else { return };
    // 1.75 V a cell where the card gives no cutoff, as section 4.1 has it.
    let moments = [block.volts, block.cutoff.or(Volts::new(10.5))];
    for pair in &site.plan.pairs {
        for (at_end, volts) in moments.iter().enumerate() {
            if let Some(volts) = volts {
                add_pair(bench, site, pair, volts.get(), at_end == 1);
            }
        }
    }
}

/// Whether every current of a pair's items is known.
fn known(site: &Worked<'_>, pair: &SupplyPair) -> bool {
    pair.items.iter().filter_map(|item| site.job.items.get(*item)).all(|item| {
        let own = item.device.supply.get().is_none_or(|supply| supply.alarm.is_some());
        own && item.device.triggers.iter().all(|t| t.current.is_some() && t.fires.is_some())
    })
}

/// A two-wire sounder fired by removal: section 5.2 has no line for it.
fn removed_on_two_wires(device: &Device) -> bool {
    let removed = |t: &DeviceTrigger| t.fires.is_some_and(|fires| !fires.is_applied());
    device.supply.get().is_none() && device.triggers.iter().any(removed)
}

fn add_pair(bench: &mut Bench, site: &Worked<'_>, pair: &SupplyPair, source: f64, at_end: bool) {
    let Some(core) = core_ohms(site.job, site.plan, pair.cable, false) else { return };
    let devices = || pair.items.iter().filter_map(|item| site.job.items.get(*item)).map(|item| item.device);
    if !known(site, pair) || devices().any(removed_on_two_wires) {
        return;
    }
    let Some(supply) = site.job.board.supplies.get(pair.supply) else { return };
    let deck = &mut bench.deck;
    let (board, plus, minus) = (deck.node(), deck.node(), deck.node());
    deck.volts(&board, "0", source - supply.drop.get());
    for _ in &pair.positive {
        deck.resistor(&board, &plus, core);
    }
    for _ in &pair.negative {
        deck.resistor("0", &minus, core);
    }
    let mut lines = Vec::new();
    for item in &pair.items {
        let Some(device) = site.job.items.get(*item).map(|item| item.device) else { continue };
        let mut own = device.supply.get().and_then(|supply| supply.alarm).map_or(0.0, Amps::get);
        let mut of_item = Vec::new();
        for trigger in &device.triggers {
            let amps = trigger.current.map_or(0.0, Amps::get);
            match trigger.fires {
                Some(Fires::NegativeApplied) => {
                    let end = bench.deck.onward("0", core);
                    bench.deck.draws(&plus, &end, amps);
                    of_item.push(Probe::Volts(plus.clone(), end));
                }
                Some(Fires::PositiveApplied) => {
                    let end = bench.deck.onward(&board, core);
                    bench.deck.draws(&end, &minus, amps);
                    of_item.push(Probe::Volts(end, minus.clone()));
                }
                _ => own += amps,
            }
        }
        if device.supply.get().is_some() {
            bench.deck.draws(&plus, &minus, own);
            of_item.push(Probe::Volts(plus.clone(), minus.clone()));
        }
        lines.push((*item, of_item));
    }
    for (item, probes) in lines {
        let Some(row) = site.figures.drops.iter().find(|row| row.item == item) else { continue };
        lowest(bench, site, row, probes, at_end);
    }
}

/// The item's figure is the lowest of its lines.
fn lowest(bench: &mut Bench, site: &Worked<'_>, row: &Drop, probes: Vec<Probe>, at_end: bool) {
    let worked = if at_end { &row.battery_end } else { &row.mains };
    let name = site.job.items.get(row.item).map_or("?", |item| item.name());
    let what = format!("{}: volts of {name}, battery end {at_end}", site.name);
    bench.claim(what, Probe::Lowest(probes), worked.value);
}
