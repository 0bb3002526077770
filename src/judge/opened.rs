//! `opened`: a kept device must be opened because resistors go in or come out. It takes a ladder and time, and its
//! tamper will open.

use super::case::Case;
use super::types::Finding;
use crate::land::PlannedItem;
use crate::model::{Eol, Item, Resistors, ResistorsAt, Wiring};
use crate::units::Ohms;

const CODE: &str = "opened";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.plan.items.iter().filter_map(|planned| of_item(case, planned)).collect()
}

fn of_item(case: &Case<'_>, planned: &PlannedItem) -> Option<Finding> {
    let item: &Item<'_> = case.job.items.get(planned.item).filter(|i| i.keep())?;
    let there = item.served.and_then(|s| s.resistors.get()).filter(|r| r.at == ResistorsAt::Device);
    let chosen = case.plan.choice.items.get(planned.item).and_then(|c| c.as_ref().ok());
    if planned.input.is_none() && chosen.is_none_or(|c| !c.in_tamper_loop) {
        // Nothing of it is wired, so what is in it does no harm.
        return None;
    }
    let wanted = planned.method.wiring().filter(|w| *w != Wiring::ClosedLoop);
    let act = match (wanted, there) {
        (None, None) => return None,
        (None, Some(_)) => "Take the old resistors out and link what they bridged.".to_string(),
        (Some(wiring), Some(there)) if are_right(wiring, &case.job.board.eol, there) => return None,
        (Some(wiring), Some(_)) => format!("Take the old resistors out and fit {}.", wanted_text(case, wiring)),
        (Some(wiring), None) => format!("Fit {}.", wanted_text(case, wiring)),
    };
    Some(Finding::note(CODE, item.name(), format!("{} must be opened. {act}", item.name())))
}

/// Whether the resistors in a device are those that the board wants there.
fn are_right(wiring: Wiring, eol: &Eol, there: &Resistors) -> bool {
    let same = |a: Option<Ohms>, b: Option<Ohms>| a.zip(b).is_some_and(|(a, b)| a.same(b));
    match wiring {
        Wiring::ClosedLoop => false,
        Wiring::SingleEol => same(there.end, eol.single) && there.alarm.is_none(),
        Wiring::DoubleEol => {
            let (end, alarm) = (eol.double.map(|d| d.end), eol.double.map(|d| d.alarm));
            same(there.end, end) && same(there.alarm, alarm)
        }
    }
}

/// The resistors that a wiring wants at the device.
fn wanted_text(case: &Case<'_>, wiring: Wiring) -> String {
    let eol = &case.job.board.eol;
    match (wiring, eol.single, eol.double) {
        (Wiring::SingleEol, Some(end), _) => format!("{end} in series with the contact"),
        (Wiring::DoubleEol, _, Some(double)) => {
            format!("{} across the alarm contact and {} in series", double.alarm, double.end)
        }
        _ => "the board's resistors".into(),
    }
}
