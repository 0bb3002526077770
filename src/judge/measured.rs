//! The loops that a meter was put on, each with what its cable and contact should read.

use super::case::Case;
use crate::land::ohms_per_metre;
use crate::model::{CoreUse, Function, JobCable, JobCore, Wiring};

/// A measured alarm or tamper pair of one served item.
#[derive(Debug, Clone, Copy)]
pub(super) struct MeasuredPair<'a> {
    /// The cable's name.
    pub(super) cable: &'a str,
    /// The item's name.
    pub(super) item: &'a str,
    /// Whether the item stays.
    pub(super) kept: bool,
    /// The cores' colours.
    pub(super) colours: (&'a str, &'a str),
    /// What was read; `None`: open.
    pub(super) ohms: Option<f64>,
    /// What a sound loop of the shortest and of the longest length reads; `None`: not known, or its old zone is
    /// not a closed loop, so resistors may be in it.
    pub(super) sound: Option<(f64, f64)>,
}

impl MeasuredPair<'_> {
    /// Two colours as a person says them.
    pub(super) fn cores(&self) -> String {
        format!("{} and {}", self.colours.0, self.colours.1)
    }
}

/// Every measured pair of the site, in survey order.
pub(super) fn measured_pairs<'a>(case: &Case<'a>) -> Vec<MeasuredPair<'a>> {
    let cables = case.job.cables.iter().enumerate();
    cables.flat_map(|(c, cable)| pairs_of(case, c, cable)).collect()
}

fn pairs_of<'a>(case: &Case<'a>, at: usize, cable: &'a JobCable<'a>) -> Vec<MeasuredPair<'a>> {
    cable
        .survey
        .measured
        .iter()
        .filter_map(|m| {
            let first = cable.cores.iter().find(|k| k.colour == m.cores.0)?;
            let second = cable.cores.iter().find(|k| k.colour == m.cores.1)?;
            let item = first.owner.filter(|owner| second.owner == Some(owner))?;
            let tamper = is_tamper(first, second)?;
            let closed = wiring(case, first, second, tamper) == Some(Wiring::ClosedLoop);
            Some(MeasuredPair {
                cable: &cable.survey.cable,
                item,
                kept: case.is_kept(item),
                colours: (first.colour, second.colour),
                ohms: m.ohms.map(crate::units::Ohms::get),
                sound: if closed { sound(case, at, item, tamper) } else { None },
            })
        })
        .collect()
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
fn wiring(case: &Case<'_>, first: &JobCore<'_>, second: &JobCore<'_>, tamper: bool) -> Option<Wiring> {
    let zone = first.zone.or(second.zone).and_then(|z| case.job.panel.zones.get(z));
    if !tamper {
        return zone?.pair.wiring;
    }
    if let Some(own) = zone.and_then(|z| z.tamper.as_ref()) {
        return own.wiring;
    }
    if [first, second].iter().any(|core| on_siren_tamper(case, core)) {
        return Some(Wiring::ClosedLoop);
    }
    case.job.panel.tamper.get()?.wiring
}

/// Whether a core is on the sounder's tamper terminals, and not on the panel's own tamper pair.
fn on_siren_tamper(case: &Case<'_>, core: &JobCore<'_>) -> bool {
    let CoreUse::Mark(mark) = &core.on else { return false };
    let siren = case.job.panel.siren.get().and_then(|s| s.tamper.get());
    let own = case.job.panel.tamper.get().is_some_and(|t| t.out == *mark || t.back == *mark);
    !own && siren.is_some_and(|s| s.terminal == *mark || s.with.as_ref() == Some(mark))
}

/// Ohms of cable and contact at the shortest and the longest length; `None`: not known.
fn sound(case: &Case<'_>, cable: usize, item: &str, tamper: bool) -> Option<(f64, f64)> {
    let length = (*case.plan.lengths.get(cable)?)?;
    let seen = case.job.cables.get(cable)?;
    let device = &seen.survey.serves.iter().find(|s| s.item == item)?.device;
    let device = case.job.library.devices.get(device)?;
    let contact = if tamper { &device.tamper } else { &device.alarm };
    let series = contact.get().map_or(0.0, |c| c.series.get());
    let there_and_back = 2.0 * ohms_per_metre(case.job, seen.kind)?;
    Some((there_and_back * length.shortest + series, there_and_back * length.longest + series))
}
