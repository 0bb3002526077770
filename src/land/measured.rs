//! The loops that a meter was put on: whose they are, and what is in them besides the cable.

use crate::model::{CoreUse, Function, Job, JobCore, Wiring};

/// A measured alarm or tamper pair of one served item.
#[derive(Debug, Clone, Copy)]
pub struct MeasuredPair<'a> {
    /// The item's name.
    pub item: &'a str,
    /// Whether the item stays.
    pub kept: bool,
    /// The cores' colours.
    pub colours: (&'a str, &'a str),
    /// Ohms that were read; `None`: open.
    pub ohms: Option<f64>,
    /// Whether the old panel watches it as a closed loop, so that a sound one reads cable and contact alone.
    pub closed: bool,
    /// Ohms of the contact itself.
    pub series: f64,
}

/// The measured pairs of a cable, in survey order. Two cores that are not one item's alarm or tamper pair are none.
#[must_use]
pub fn measured_pairs<'a>(job: &'a Job<'_>, cable: usize) -> Vec<MeasuredPair<'a>> {
    let Some(seen) = job.cables.get(cable) else { return Vec::new() };
    let core = |colour: &str| seen.cores.iter().find(|k| k.colour == colour);
    let pair = |m: &'a crate::model::Measured| {
        let (first, second) = (core(&m.cores.0)?, core(&m.cores.1)?);
        let item = first.owner.filter(|owner| second.owner == Some(owner))?;
        let tamper = is_tamper(first, second)?;
        Some(MeasuredPair {
            item,
            kept: job.items.iter().any(|i| i.keep() && i.name() == item),
            colours: (first.colour, second.colour),
            ohms: m.ohms.map(crate::units::Ohms::get),
            closed: wiring(job, first, second, tamper) == Some(Wiring::ClosedLoop),
            series: series(job, cable, item, tamper),
        })
    };
    seen.survey.measured.iter().filter_map(pair).collect()
}

/// The loop that a cable's length is worked from, with its ohms: the first closed one that a meter was put on and whose
/// item stays.
#[must_use]
pub fn worked_from<'a>(job: &'a Job<'_>, cable: usize) -> Option<(MeasuredPair<'a>, f64)> {
    let mut loops = measured_pairs(job, cable).into_iter().filter(|pair| pair.kept && pair.closed);
    loops.find_map(|pair| Some((pair, pair.ohms?)))
}

/// Whether two cores are a tamper pair (`true`) or an alarm pair (`false`); `None`: neither.
fn is_tamper(first: &JobCore<'_>, second: &JobCore<'_>) -> Option<bool> {
    match (first.function.as_ref()?, second.function.as_ref()?) {
        (Function::Alarm, Function::AlarmReturn) | (Function::AlarmReturn, Function::Alarm) => Some(false),
        (Function::Tamper, Function::TamperReturn) | (Function::TamperReturn, Function::Tamper) => Some(true),
        _ => None,
    }
}

/// How the old panel watches the pair: by its zone, by the tamper's own wiring; the sounder's is a closed loop.
fn wiring(job: &Job<'_>, first: &JobCore<'_>, second: &JobCore<'_>, tamper: bool) -> Option<Wiring> {
    let zone = first.zone.or(second.zone).and_then(|z| job.panel.zones.get(z));
    if !tamper {
        return zone?.pair.wiring;
    }
    if let Some(own) = zone.and_then(|z| z.tamper.as_ref()) {
        return own.wiring;
    }
    if [first, second].iter().any(|core| on_siren_tamper(job, core)) {
        return Some(Wiring::ClosedLoop);
    }
    job.panel.tamper.get()?.wiring
}

/// Whether a core is on the sounder's tamper terminals, and not on the panel's own tamper pair.
fn on_siren_tamper(job: &Job<'_>, core: &JobCore<'_>) -> bool {
    let CoreUse::Mark(mark) = &core.on else { return false };
    let siren = job.panel.siren.get().and_then(|s| s.tamper.get());
    let own = job.panel.tamper.get().is_some_and(|t| t.out == *mark || t.back == *mark);
    !own && siren.is_some_and(|s| s.terminal == *mark || s.with.as_ref() == Some(mark))
}

/// Ohms of the contact of the item that a cable serves.
fn series(job: &Job<'_>, cable: usize, item: &str, tamper: bool) -> f64 {
    let served = job.cables[cable].survey.serves.iter().find(|s| s.item == item);
    let device = served.and_then(|s| job.library.devices.get(&s.device));
    let contact = device.and_then(|d| if tamper { d.tamper.get() } else { d.alarm.get() });
    contact.map_or(0.0, |c| c.series.get())
}
