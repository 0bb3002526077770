//! How long each cable is: as surveyed, or worked from the first closed loop that was measured on it.

use super::CableLength;
use crate::formula::{copper, drop};
use crate::model::{Cable, Conductor, Function, Item, Job, JobCable, Wiring};

/// Ohms of one metre of one core at the survey's temperature; `None`: the cable card does not say.
#[must_use]
pub fn ohms_per_metre(job: &Job<'_>, kind: &Cable) -> Option<f64> {
    let at_20 = match kind.conductor? {
        Conductor::OhmsPerKm(ohms) => ohms.get() / 1000.0,
        Conductor::Area(area) => copper::per_metre_of_area(area.get())?,
        Conductor::Strands { count, diameter } => {
            copper::per_metre_of_area(copper::area_of_strands(count, diameter.get()))?
        }
    };
    let ohms = copper::at_temperature(at_20, job.survey.temperature.get());
    (ohms.is_finite() && ohms >= 0.0).then_some(ohms)
}

/// The length of each cable of the job.
#[must_use]
pub fn lengths(job: &Job<'_>) -> Vec<Option<CableLength>> {
    job.cables
        .iter()
        .enumerate()
        .map(|(c, cable)| match cable.survey.length {
            Some(given) => Some(CableLength { shortest: given.low.get(), longest: given.high.get(), worked: false }),
            None => worked_length(job, c, cable).map(|m| CableLength { shortest: m, longest: m, worked: true }),
        })
        .collect()
}

/// The length that the first measured closed loop of a kept item gives.
fn worked_length(job: &Job<'_>, at: usize, cable: &JobCable<'_>) -> Option<f64> {
    let (ohms, measured) = cable.survey.measured.iter().find_map(|m| {
        let measured = measured_loop(job, at, (&m.cores.0, &m.cores.1)).filter(|l| l.closed)?;
        Some((m.ohms?, measured))
    })?;
    drop::length_of_loop(ohms.get(), measured.series, ohms_per_metre(job, cable.kind)?)
}

/// A kept item's loop that a meter was put on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredLoop {
    /// The item, as an index into the job's items.
    pub item: usize,
    /// Whether the old panel watches it as a closed loop, so that it reads cable and contact alone.
    pub closed: bool,
    /// The contact's own ohms.
    pub series: f64,
}

/// Whose loop two cores of a cable are: the alarm or the tamper pair of one kept item; `None` for any other two.
#[must_use]
pub fn measured_loop(job: &Job<'_>, cable: usize, colours: (&str, &str)) -> Option<MeasuredLoop> {
    let cores = &job.cables.get(cable)?.cores;
    let first = cores.iter().find(|c| c.colour == colours.0)?;
    let second = cores.iter().find(|c| c.colour == colours.1)?;
    let owner = first.owner.filter(|o| second.owner == Some(o))?;
    let item = job.items.iter().position(|i| i.keep() && i.name() == owner)?;
    let is_pair = |out: &Function, back: &Function| {
        let (a, b) = (first.function.as_ref(), second.function.as_ref());
        (a == Some(out) && b == Some(back)) || (a == Some(back) && b == Some(out))
    };
    if is_pair(&Function::Alarm, &Function::AlarmReturn) {
        let zone = first.zone.or(second.zone).and_then(|z| job.panel.zones.get(z))?;
        let closed = zone.pair.wiring == Some(Wiring::ClosedLoop);
        let series = job.items[item].device.alarm.get().map_or(0.0, |a| a.series.get());
        return Some(MeasuredLoop { item, closed, series });
    }
    if is_pair(&Function::Tamper, &Function::TamperReturn) {
        let series = job.items[item].device.tamper.get().map_or(0.0, |t| t.series.get());
        return Some(MeasuredLoop { item, closed: tamper_is_closed(job, &job.items[item], cable), series });
    }
    None
}

/// Whether the tamper pair that an item's cores are on is watched as a closed loop: the zone's own, the panel's, or
/// the external sounder's, which always is.
fn tamper_is_closed(job: &Job<'_>, item: &Item<'_>, cable: usize) -> bool {
    let tamper = job.cables[cable].cores.iter().find(|c| {
        c.owner == Some(item.name()) && matches!(c.function, Some(Function::Tamper | Function::TamperReturn))
    });
    let Some(tamper) = tamper else { return false };
    if let crate::model::CoreUse::Mark(mark) = &tamper.on {
        let siren = job.panel.siren.get().and_then(|s| s.tamper.get());
        let on_siren = siren.is_some_and(|s| s.terminal == *mark || s.with.as_ref() == Some(mark));
        let own = job.panel.tamper.get().is_some_and(|t| t.out == *mark || t.back == *mark);
        if on_siren && !own {
            return true;
        }
    }
    let pair = match tamper.zone {
        Some(zone) => job.panel.zones.get(zone).and_then(|z| z.tamper.as_ref()),
        None => job.panel.tamper.get(),
    };
    pair.is_some_and(|p| p.wiring == Some(Wiring::ClosedLoop))
}
