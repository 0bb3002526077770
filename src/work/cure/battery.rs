//! A battery that is too small, or comes back too slowly.

use super::super::BatteryFigures;
use super::super::battery::capacity;
use super::show;
use crate::formula::battery::{CHARGE_KEPT, Duty, RECHARGED, required};
use crate::formula::cure::{largest, smallest};
use crate::formula::finite;
use crate::formula::sum::SPARE;
use crate::model::Job;
use crate::units::{AmpHours, Amps};

/// The largest battery that is looked at, in ampere-hours.
const MOST_AH: f64 = 10_000.0;

/// What would make the battery enough. `None` in a field: that way does not do, or is not known.
#[derive(Debug, Clone, PartialEq)]
pub struct BatteryCure {
    /// The smallest of the source's capacities that is enough.
    pub fits: Option<f64>,
    /// The smallest capacity at all that is enough.
    pub least_ah: Option<f64>,
    /// Amperes that must go, at rest and in alarm alike, for the battery as it is.
    pub less_amps: Option<f64>,
    /// Hours of standby that the battery as it is would carry before the time in alarm.
    pub lasts: Option<f64>,
    /// The capacity as it is.
    pub fitted: f64,
    /// The hours that are asked.
    pub asked: f64,
}

/// Whether a battery does its duty, without the spare of rounding, which is left to whoever works it again.
fn enough(duty: &Duty, capacity: f64) -> bool {
    required(duty, capacity).is_some_and(|ah| ah <= capacity)
}

/// What would make the battery enough; `None` when it is, or when that is not known.
#[must_use]
pub fn battery(job: &Job<'_>, figures: &BatteryFigures) -> Option<BatteryCure> {
    if figures.enough != Some(false) {
        return None;
    }
    let duty = capacity::duty(job, &figures.standby, &figures.alarm)?;
    let fitted = figures.fitted_ah?;
    let without = |less: f64| {
        enough(&Duty { standby: (duty.standby - less).max(0.0), alarm: (duty.alarm - less).max(0.0), ..duty }, fitted)
    };
    let lasting = |hours: f64| enough(&Duty { standby_hours: hours, ..duty }, fitted);
    Some(BatteryCure {
        fits: figures.smallest_enough.value,
        least_ah: smallest(fitted, MOST_AH, |ah| enough(&duty, ah)),
        less_amps: smallest(0.0, duty.standby.min(duty.alarm), without),
        lasts: largest(0.0, duty.standby_hours, lasting),
        fitted,
        asked: duty.standby_hours,
    })
}

impl BatteryCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self) -> String {
        let mut ways: Vec<String> = Vec::new();
        match (self.fits, self.least_ah) {
            (Some(fits), _) => ways.push(format!("a battery of {}", show::ah_up(fits))),
            (None, Some(least)) => {
                ways.push(format!("{} or more, which this source does not take: another source", show::ah_up(least)));
            }
            (None, None) => {}
        }
        ways.extend(self.less_amps.map(|amps| format!("{} less, at rest and in alarm", show::amps_up(amps))));
        let lasts = match self.lasts {
            Some(hours) => format!(
                "As it is, {} lasts {} of the {} of standby before the time in alarm.",
                show::ah_down(self.fitted),
                show::hours_down(hours),
                show::hours_down(self.asked)
            ),
            None => format!("As it is, {} does not even carry the time in alarm.", show::ah_down(self.fitted)),
        };
        if ways.is_empty() { lasts } else { format!("{lasts} Would do: {}.", show::either(&ways)) }
    }
}

/// What would bring the battery back in time. `None` in a field: not known.
#[derive(Debug, Clone, PartialEq)]
pub struct RechargeCure {
    /// The charging current that would do, in amperes.
    pub charge: Option<f64>,
    /// The charging current that there is.
    pub now: Option<f64>,
    /// The largest battery that would be back in time.
    pub largest_ah: Option<f64>,
    /// The largest of the source's capacities that would be back in time and is enough.
    pub fits: Option<f64>,
}

/// What would bring the battery back in time; `None` when it is, or when that is not known.
#[must_use]
pub fn recharge(job: &Job<'_>, figures: &BatteryFigures) -> Option<RechargeCure> {
    let limit = figures.recharge_limit_hours?;
    if figures.recharge.value? <= limit + SPARE {
        return None;
    }
    let block = job.source.as_ref()?.block?;
    let now = block.charge.map(Amps::get);
    let largest_ah = now.and_then(|charge| finite(limit * CHARGE_KEPT * charge / RECHARGED));
    let in_time = |ah: &f64| largest_ah.is_some_and(|most| *ah <= most + SPARE);
    let sufficient = |ah: &f64| figures.smallest_enough.value.is_some_and(|least| *ah + SPARE >= least);
    let fits = block.battery.get().into_iter().flat_map(|battery| battery.fits.iter().map(|ah: &AmpHours| ah.get()));
    Some(RechargeCure {
        charge: figures.fitted_ah.and_then(|fitted| finite(RECHARGED * fitted / (CHARGE_KEPT * limit))),
        now,
        largest_ah,
        fits: fits.filter(in_time).filter(sufficient).reduce(f64::max),
    })
}

impl RechargeCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self) -> String {
        let mut ways: Vec<String> = Vec::new();
        let now = self.now.map_or_else(String::new, |now| format!(" (now {})", show::amps(now)));
        ways.extend(self.charge.map(|charge| format!("a charging current of {}{now}", show::amps_up(charge))));
        ways.extend(self.largest_ah.map(|ah| match self.fits {
            Some(fits) => format!("a battery of at most {}: {} is enough", show::ah_down(ah), show::ah_up(fits)),
            None => format!("a battery of at most {}, and none that the source takes is enough", show::ah_down(ah)),
        }));
        format!("Would do: {}.", show::either(&ways))
    }
}
