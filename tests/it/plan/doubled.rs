//! How many supply cores each pair must end up with, by the doubling rule of section 5.1 and the volts of 5.2.

use wirelore::land::Plan;
use wirelore::model::{Conductor, Device, DeviceTrigger, Fires, Job};

/// The positive and negative cores of each of the plan's pairs; `None` where a figure is not known that the rule
/// needs, or where the text does not say which line a two-wire sounder's removed trigger draws on.
pub(crate) fn doubled_counts(job: &Job<'_>, plan: &Plan) -> Option<Vec<[usize; 2]>> {
    let mut counts: Vec<[usize; 2]> = plan
        .pairs
        .iter()
        .map(|pair| {
            let cores = &plan.cables[pair.cable].cores;
            [&pair.positive, &pair.negative].map(|side| side.iter().filter(|k| !cores[**k].doubled).count())
        })
        .collect();
    for cable in 0..job.cables.len() {
        let all = job.cables[cable].cores.iter().zip(&plan.cables[cable].cores);
        let mut spare =
            all.filter(|(core, planned)| core.usable && (planned.items.is_empty() || planned.doubled)).count();
        for at in (0..plan.pairs.len()).filter(|at| plan.pairs[*at].cable == cable) {
            let line = Pair::new(job, plan, at)?;
            let mut negative_next = true;
            while spare > 0 {
                let Some(sides) = line.worst(counts[at]) else { break };
                let side = match sides {
                    [true, true] => usize::from(negative_next),
                    [true, false] => 0,
                    [false, _] => 1,
                };
                counts[at][side] += 1;
                spare -= 1;
                negative_next = side == 0;
            }
        }
    }
    Some(counts)
}

/// What the volts of a pair rest on.
struct Pair<'a> {
    devices: Vec<&'a Device>,
    /// Volts at the board's supply, the lower of mains and battery end.
    volts: f64,
    /// Ohms of one core.
    ohms: f64,
    /// The currents of both sides.
    currents: [f64; 2],
}

impl<'a> Pair<'a> {
    fn new(job: &Job<'a>, plan: &Plan, at: usize) -> Option<Self> {
        let pair = &plan.pairs[at];
        let block = job.source.as_ref()?.block?;
        let volts = block.volts?.get().min(block.cutoff?.get()) - job.board.supplies[pair.supply].drop.get();
        let length = job.cables[pair.cable].survey.length?.high.get();
        let Some(Conductor::OhmsPerKm(per_km)) = job.cables[pair.cable].kind.conductor else { return None };
        let heat = 1.0 + 0.00393 * (job.survey.temperature.get() - 20.0);
        let devices: Vec<&Device> = pair.items.iter().map(|item| job.items[*item].device).collect();
        let mut currents = [0.0; 2];
        for device in &devices {
            if let Some(supply) = device.supply.get() {
                let own = supply.alarm?.get();
                currents = currents.map(|side| side + own);
            }
            for trigger in &device.triggers {
                let current = trigger.current?.get();
                match trigger.fires? {
                    Fires::NegativeApplied => currents[0] += current,
                    Fires::PositiveApplied => currents[1] += current,
                    _ if device.supply.get().is_none() => return None,
                    _ => currents = currents.map(|side| side + current),
                }
            }
        }
        Some(Self { devices, volts, ohms: per_km.get() / 1000.0 * heat * length, currents })
    }

    /// The sides in the lowest line of the item furthest below its low volts; `None` when none is below.
    fn worst(&self, counts: [usize; 2]) -> Option<[bool; 2]> {
        let mut worst: Option<(f64, [bool; 2])> = None;
        for device in &self.devices {
            let window = device.supply.get().map_or(device.volts, |supply| supply.volts);
            let (Some(low), Some((volts, sides))) = (window, self.lowest(device, counts)) else { continue };
            let below = low.low.get() - volts;
            if below > 0.0 && worst.is_none_or(|(most, _)| below > most) {
                worst = Some((below, sides));
            }
        }
        worst.map(|(_, sides)| sides)
    }

    /// The lowest line of a device, and which sides of the pair are in it.
    fn lowest(&self, device: &Device, counts: [usize; 2]) -> Option<(f64, [bool; 2])> {
        let count = |side: usize| f64::from(u32::try_from(counts[side]).unwrap_or(u32::MAX));
        let side = |side: usize| self.currents[side] / count(side);
        let mut lines = Vec::new();
        if device.supply.get().is_some() {
            lines.push((self.volts - (side(0) + side(1)) * self.ohms, [true, true]));
        }
        lines.extend(device.triggers.iter().filter_map(|DeviceTrigger { fires, current, .. }| {
            let own = current.map_or(0.0, wirelore::units::Amps::get);
            match fires {
                Some(Fires::NegativeApplied) => Some((self.volts - (side(0) + own) * self.ohms, [true, false])),
                Some(Fires::PositiveApplied) => Some((self.volts - (own + side(1)) * self.ohms, [false, true])),
                _ => None,
            }
        }));
        lines.into_iter().reduce(|least, line| if line.0 < least.0 { line } else { least })
    }
}
