//! Spare cores laid beside supply cores where the volts at the far end are too low.

use super::colours::Cores;
use super::volts::{self, Moment};
use super::{CableLength, SupplyPair, ohms_per_metre};
use crate::formula::drop;
use crate::model::{Function, Job};

/// How much too low volts must be to count, for the rounding of sums.
const SPARE_VOLTS: f64 = 1e-9;

/// The side to which a core goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Positive,
    Negative,
}

/// Doubles supply cores, pair by pair, until every item of the pair has its low volts or the spare cores run out.
pub(super) fn double(cores: &mut Cores<'_, '_>, lengths: &[Option<CableLength>]) {
    for pair in 0..cores.pairs.len() {
        let cable = cores.pairs[pair].cable;
        let mut last = Side::Positive;
        while let Some(sides) = lowest(cores.job, &cores.pairs[pair], lengths) {
            let next = match sides {
                Sides::Both if last == Side::Positive => Side::Negative,
                Sides::Both => Side::Positive,
                Sides::Only(side) => side,
            };
            let (at, function) = match next {
                Side::Positive => (0, Function::SupplyPositive),
                Side::Negative => (1, Function::SupplyNegative),
            };
            let Some(core) = cores.pick(cable, &function) else { break };
            cores.take_pair_side(pair, at, core, false, true);
            last = next;
        }
    }
}

/// The sides that a line runs over.
#[derive(Debug, Clone, Copy)]
enum Sides {
    Both,
    Only(Side),
}

/// The sides of the lowest line of the item that is furthest below its low volts; `None` when none is below.
fn lowest(job: &Job<'_>, pair: &SupplyPair, lengths: &[Option<CableLength>]) -> Option<Sides> {
    let metres = lengths.get(pair.cable).copied().flatten()?.longest;
    let ohms = ohms_per_metre(job, job.cables[pair.cable].kind)?;
    let amps = volts::pair_amps(job, pair);
    let sources = [Moment::Mains, Moment::BatteryEnd].map(|moment| volts::supply_volts(job, pair.supply, moment));
    let source = sources.into_iter().flatten().reduce(f64::min)?;
    let mut worst: Option<(f64, Sides)> = None;
    for item in &pair.items {
        let device = job.items[*item].device;
        let Some(needs) = volts::needs(device) else { continue };
        for line in volts::lines(device) {
            let Some(sum) = volts::line_amps(&line, amps, pair.positive.len(), pair.negative.len()) else { continue };
            let below = needs.low.get() - drop::volts_left(source, sum, ohms, metres);
            let sides = match (line.positive, line.negative) {
                (true, true) => Sides::Both,
                (true, false) => Sides::Only(Side::Positive),
                (false, _) => Sides::Only(Side::Negative),
            };
            if below > SPARE_VOLTS && worst.as_ref().is_none_or(|(most, _)| below > most + SPARE_VOLTS) {
                worst = Some((below, sides));
            }
        }
    }
    worst.map(|(_, sides)| sides)
}
