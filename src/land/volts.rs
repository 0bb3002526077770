//! Currents in a supply pair, and the lines along which an item gets its volts.

use super::SupplyPair;
use crate::model::{Device, DeviceTrigger, Fires, Job};
use crate::units::Volts;

/// Volts at which a source is taken to drop a discharged battery when its card does not say (1.75 V a cell, the
/// end of the 20-hour rating in battery data sheets).
pub const CUTOFF_ASSUMED: f64 = 10.5;

/// The two moments for which volts are worked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moment {
    /// The mains is on.
    Mains,
    /// The mains is off and the battery is nearly flat.
    BatteryEnd,
}

/// Volts at the terminals of a board supply; `None`: the source's are not known.
#[must_use]
pub fn supply_volts(job: &Job<'_>, supply: usize, moment: Moment) -> Option<f64> {
    let block = job.source.as_ref()?.block?;
    let source = match moment {
        Moment::Mains => block.volts?.get(),
        Moment::BatteryEnd => block.cutoff.map_or(CUTOFF_ASSUMED, Volts::get),
    };
    Some(source - job.board.supplies.get(supply)?.drop.get())
}

/// What the two sides of a supply pair carry in alarm, in amperes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairAmps {
    /// The positive side, over all its cores; `None`: not known.
    pub positive: Option<f64>,
    /// The negative side, over all its cores; `None`: not known.
    pub negative: Option<f64>,
}

/// The alarm currents of a pair.
#[must_use]
pub fn pair_amps(job: &Job<'_>, pair: &SupplyPair) -> PairAmps {
    let devices = || pair.items.iter().map(|i| job.items[*i].device);
    let own: Option<f64> = devices().map(own_alarm).sum();
    let applied = |fires: Fires| -> Option<f64> {
        devices()
            .flat_map(|d| d.triggers.iter())
            .filter(|t| t.fires == Some(fires))
            .map(|t| t.current.map(crate::units::Amps::get))
            .sum()
    };
    PairAmps {
        positive: own.zip(applied(Fires::NegativeApplied)).map(|(a, b)| a + b),
        negative: own.zip(applied(Fires::PositiveApplied)).map(|(a, b)| a + b),
    }
}

/// What a device draws through its pair in alarm: its own, and its triggers that fire by removal.
#[must_use]
pub fn own_alarm(device: &Device) -> Option<f64> {
    let supply = match device.supply.get() {
        Some(supply) => supply.alarm?.get(),
        None => 0.0,
    };
    let removed: Option<f64> = device
        .triggers
        .iter()
        .filter(|t| t.fires.is_some_and(|f| !f.is_applied()))
        .map(|t| t.current.map(crate::units::Amps::get))
        .sum();
    removed.map(|r| supply + r)
}

/// A way along which volts reach an item: over which sides of its pair, and through which trigger core.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    /// Over the positive side of the pair.
    pub positive: bool,
    /// Over the negative side of the pair.
    pub negative: bool,
    /// Through this trigger's own core.
    pub trigger: Option<&'a DeviceTrigger>,
}

/// Every line of a device: its own supply, then its triggers in card order.
#[must_use]
pub fn lines(device: &Device) -> Vec<Line<'_>> {
    let own = device.supply.get().map(|_| Line { positive: true, negative: true, trigger: None });
    let two_wire = device.is_two_wire();
    let triggers = device.triggers.iter().filter_map(|trigger| {
        let fires = trigger.fires.filter(|f| f.is_applied() || two_wire)?;
        Some(Line { positive: fires.is_negative(), negative: !fires.is_negative(), trigger: Some(trigger) })
    });
    own.into_iter().chain(triggers).collect()
}

/// The currents of each core along a line, added up; `None` when one is not known or a side has no core.
#[must_use]
pub fn line_amps(line: &Line<'_>, amps: PairAmps, positive_cores: usize, negative_cores: usize) -> Option<f64> {
    let side = |used: bool, amps: Option<f64>, cores: usize| match (used, cores) {
        (false, _) => Some(0.0),
        (true, 0) => None,
        (true, n) => amps.map(|a| a / f64::from(u32::try_from(n).unwrap_or(u32::MAX))),
    };
    let trigger = match line.trigger {
        Some(trigger) => trigger.current?.get(),
        None => 0.0,
    };
    let positive = side(line.positive, amps.positive, positive_cores)?;
    let negative = side(line.negative, amps.negative, negative_cores)?;
    Some(positive + negative + trigger)
}

/// The window of volts that a device needs.
#[must_use]
pub fn needs(device: &Device) -> Option<crate::units::Window<Volts>> {
    match device.supply.get() {
        Some(supply) => supply.volts,
        None => device.volts,
    }
}
