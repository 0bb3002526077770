//! The end-of-line resistors: which ones the plan wants, which are there, which must come out.

use crate::choose::Method;
use crate::land::{Plan, PlannedItem};
use crate::model::{Job, Resistors, ResistorsAt};
use crate::units::Ohms;

/// What a served item wants inside its device, as the board has it: the end resistor, the alarm resistor.
/// `None`: no resistors.
#[must_use]
pub(super) fn wanted(job: &Job, planned: &PlannedItem) -> Option<(Option<Ohms>, Option<Ohms>)> {
    let eol = &job.board.eol;
    match planned.method {
        Method::SingleEol => Some((eol.single, None)),
        Method::DoubleEol => Some((eol.double.map(|d| d.end), eol.double.map(|d| d.alarm))),
        _ => None,
    }
}

/// The resistors that are in a kept item's device today.
#[must_use]
pub(super) fn inside<'a>(job: &'a Job, planned: &PlannedItem) -> Option<&'a Resistors> {
    let served = job.items.get(planned.item)?.served?;
    served.resistors.get().filter(|r| r.at == ResistorsAt::Device)
}

/// Whether the right ones are in the device already.
#[must_use]
pub(super) fn right(job: &Job, planned: &PlannedItem) -> bool {
    match (wanted(job, planned), inside(job, planned)) {
        (Some((end, alarm)), Some(there)) => end.is_some() && there.end == end && there.alarm == alarm,
        (None, None) => true,
        _ => false,
    }
}

/// What must be done inside the device, in words; `None`: nothing.
#[must_use]
pub(super) fn at_device(job: &Job, planned: &PlannedItem) -> Option<String> {
    let there = inside(job, planned).map(|r| in_words(r.end, r.alarm));
    match (wanted(job, planned), there) {
        (None, None) => None,
        (None, Some(there)) => Some(format!("open the device: take out {there}")),
        (Some(_), Some(there)) if right(job, planned) => Some(format!("leave what is in it: {there}")),
        (Some((end, alarm)), None) => Some(format!("open the device: fit {}", in_words(end, alarm))),
        (Some((end, alarm)), Some(there)) => {
            Some(format!("open the device: take out {there}, fit {}", in_words(end, alarm)))
        }
    }
}

/// End and alarm resistor in words.
fn in_words(end: Option<Ohms>, alarm: Option<Ohms>) -> String {
    let end = end.map_or_else(|| "an end resistor of a value that is not known".into(), |e| format!("{e} at the end"));
    alarm.map_or_else(|| end.clone(), |alarm| format!("{end} and {alarm} across the alarm contact"))
}

/// The resistors to bring: value and how many, in order of value.
#[must_use]
pub(super) fn to_bring(job: &Job, plan: &Plan) -> Vec<(Ohms, usize)> {
    let mut list: Vec<(Ohms, usize)> = Vec::new();
    for planned in plan.items.iter().filter(|p| !right(job, p)) {
        let Some((end, alarm)) = wanted(job, planned) else { continue };
        for value in [end, alarm].into_iter().flatten() {
            match list.iter_mut().find(|(v, _)| *v == value) {
                Some((_, count)) => *count += 1,
                None => list.push((value, 1)),
            }
        }
    }
    list.sort_by(|a, b| a.0.get().total_cmp(&b.0.get()));
    list
}

/// How many resistors must be fitted whose value the board's card does not give.
#[must_use]
pub(super) fn unknown_to_bring(job: &Job, plan: &Plan) -> usize {
    let unknown = plan.items.iter().filter(|p| !right(job, p)).filter_map(|planned| {
        let (end, alarm) = wanted(job, planned)?;
        let double = planned.method == Method::DoubleEol;
        Some(usize::from(end.is_none()) + usize::from(double && alarm.is_none()))
    });
    unknown.sum()
}
