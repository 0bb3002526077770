//! The ways to make a loop read as it should, each tried on the job itself.

use super::super::super::loops::states;
use super::{ContactLimit, Resistor};
use crate::formula::cure::{e24_near, largest};
use crate::land::{CableLength, Plan, PlannedLoop};
use crate::model::{Board, Contact, Device, DoubleEol, Eol, Fact, Job, Wiring};
use crate::units::{Ohms, Percent};

/// Whether every state of a loop reads as it should.
fn passes(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> bool {
    states(job, plan, planned).iter().all(|state| state.ok == Some(true))
}

/// The longest run of the loop's longest cable with which it reads as it should.
pub(super) fn longest(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<(usize, f64)> {
    let metres = |cable: usize| plan.lengths.get(cable).copied().flatten().map(|length| length.longest);
    let cables = planned.items.iter().filter_map(|item| plan.item(*item)).map(|served| served.cable);
    let (cable, now) = cables
        .filter_map(|cable| Some((cable, metres(cable)?)))
        .reduce(|most, next| if next.1 > most.1 { next } else { most })?;
    let shortened = |to: f64| {
        let mut other = plan.clone();
        if let Some(Some(length)) = other.lengths.get_mut(cable) {
            *length = CableLength { shortest: length.shortest.min(to), longest: to, ..*length };
        }
        passes(job, &other, planned)
    };
    largest(0.0, now, shortened).map(|metres| (cable, metres))
}

/// The contact that adds most to the loop, and the most that it may add.
pub(super) fn contact(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<ContactLimit> {
    let of = |item: &usize| contact_of(job.items.get(*item)?.device, planned.tamper).get();
    let added = planned.items.iter().filter_map(|item| Some((*item, of(item)?.series.get())));
    let (item, now) = added.reduce(|most, next| if next.1 > most.1 { next } else { most })?;
    let lowered = |to: f64| Ohms::new(to).is_some_and(|to| passes_adding(job, plan, planned, item, to));
    largest(0.0, now, lowered).map(|at_most| ContactLimit { item, now, at_most })
}

/// The contact of a device that stands in a loop.
fn contact_of(device: &Device, tamper: bool) -> &Fact<Contact> {
    if tamper { &device.tamper } else { &device.alarm }
}

/// Whether a loop reads as it should when the contact of one of its items adds so much.
fn passes_adding(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop, item: usize, series: Ohms) -> bool {
    let Some(old) = job.items.get(item).map(|item| item.device) else { return false };
    let Some(contact) = contact_of(old, planned.tamper).get() else { return false };
    let changed = Fact::Is(Contact { series, ..contact.clone() });
    let mut device = old.clone();
    if planned.tamper {
        device.tamper = changed;
    } else {
        device.alarm = changed;
    }
    let mut other = job.clone();
    if let Some(item) = other.items.get_mut(item) {
        item.device = &device;
    }
    passes(&other, plan, planned)
}

/// Whether a loop's input takes another wiring than the planned one. The tamper loop is always a closed one.
pub(super) fn other_wiring(job: &Job<'_>, planned: &PlannedLoop) -> bool {
    let input = job.board.inputs.get(planned.input);
    !planned.tamper && input.is_some_and(|input| input.accepts.iter().any(|wiring| *wiring != planned.wiring))
}

/// Whether a loop reads as it should with other resistors.
fn passes_with(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop, eol: Eol) -> bool {
    let board = Board { eol, ..job.board.clone() };
    passes(&Job { board: &board, ..job.clone() }, plan, planned)
}

/// The nearest E24 value that does in place of one of the board's resistors.
pub(super) fn resistor(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<Resistor> {
    let eol = &job.board.eol;
    match (planned.tamper, planned.wiring) {
        (false, Wiring::SingleEol) => instead(eol.single?, false, |ohms| {
            passes_with(job, plan, planned, Eol { single: Some(ohms), ..eol.clone() })
        }),
        (false, Wiring::DoubleEol) => {
            let double = eol.double?;
            let with = |double: DoubleEol| passes_with(job, plan, planned, Eol { double: Some(double), ..eol.clone() });
            let end = instead(double.end, false, |end| with(DoubleEol { end, ..double }));
            end.or_else(|| instead(double.alarm, true, |alarm| with(DoubleEol { alarm, ..double })))
        }
        _ => None,
    }
}

/// The nearest E24 value that does in place of a resistor.
fn instead(now: Ohms, alarm: bool, does: impl Fn(Ohms) -> bool) -> Option<Resistor> {
    let found = e24_near(now.get()).into_iter().filter_map(Ohms::new).find(|ohms| does(*ohms))?;
    Some(Resistor { alarm, now: now.get(), instead: found.get() })
}

/// The widest tolerance that does, when the board's own is too wide.
pub(super) fn tolerance(job: &Job<'_>, plan: &Plan, planned: &PlannedLoop) -> Option<f64> {
    let eol = &job.board.eol;
    if planned.tamper || planned.wiring == Wiring::ClosedLoop {
        return None;
    }
    let with =
        |tolerance: f64| passes_with(job, plan, planned, Eol { tolerance: Percent::new(tolerance), ..eol.clone() });
    largest(0.0, eol.tolerance?.get(), with)
}
