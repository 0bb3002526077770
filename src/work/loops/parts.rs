//! The resistances that make up a loop: cable, contacts, resistors, each at three corners.

use super::super::origin;
use crate::formula::Given;
use crate::land::Plan;
use crate::model::{Board, Contact, Fact, Job};
use crate::units::{Ohms, Percent};

/// Which of a loop's figures is worked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::work) enum Corner {
    /// The resistors as marked, the longest length.
    Nominal,
    /// The resistors at the low end of their tolerance, the shortest length.
    Low,
    /// The resistors at the high end of their tolerance, the longest length.
    High,
}

impl Corner {
    /// The resistance of one core of a cable.
    pub(super) fn core(self, job: &Job<'_>, plan: &Plan, cable: usize) -> Option<f64> {
        origin::core_ohms(job, plan, cable, self == Self::Low)
    }

    /// A resistor, of this tolerance.
    pub(in crate::work) fn resistor(self, ohms: Option<Ohms>, tolerance: Option<Percent>) -> Option<f64> {
        let factor = match self {
            Self::Nominal => 1.0,
            Self::Low => (1.0 - tolerance?.get()).max(0.0),
            Self::High => 1.0 + tolerance?.get(),
        };
        ohms.map(|ohms| ohms.get() * factor)
    }

    /// The two cores of each item's pair, added up.
    pub(super) fn cables(self, job: &Job<'_>, plan: &Plan, items: &[usize]) -> Option<f64> {
        items.iter().try_fold(0.0, |so_far, item| {
            let cable = plan.item(*item)?.cable;
            self.core(job, plan, cable).map(|core| so_far + 2.0 * core)
        })
    }
}

/// The ohms in series with a contact; none for no contact.
pub(super) fn series(contact: &Fact<Contact>) -> f64 {
    contact.get().map_or(0.0, |contact| contact.series.get())
}

/// The ohms in series with the alarm contacts of some items.
pub(super) fn alarm_series(job: &Job<'_>, items: &[usize]) -> f64 {
    items.iter().filter_map(|item| job.items.get(*item)).map(|item| series(&item.device.alarm)).fold(0.0, |a, b| a + b)
}

/// The ohms in series with the tamper contacts of some items.
pub(super) fn tamper_series(job: &Job<'_>, items: &[usize]) -> f64 {
    items.iter().filter_map(|item| job.items.get(*item)).map(|item| series(&item.device.tamper)).fold(0.0, |a, b| a + b)
}

/// The numbers behind the cables of a loop.
pub(super) fn given_cables(job: &Job<'_>, plan: &Plan, items: &[usize]) -> Vec<Given> {
    let mut cables: Vec<usize> = items.iter().filter_map(|item| Some(plan.item(*item)?.cable)).collect();
    cables.sort_unstable();
    cables.dedup();
    let each = cables.into_iter().flat_map(|c| [origin::ohms_of_core(job, c), origin::length(job, plan, c)]);
    each.chain([origin::temperature(job)]).collect()
}

/// The number behind one contact of each of some items.
pub(super) fn given_series(job: &Job<'_>, items: &[usize], symbol: &str, tamper: bool) -> Vec<Given> {
    items
        .iter()
        .filter_map(|item| job.items.get(*item))
        .filter_map(|item| {
            let contact = if tamper { &item.device.tamper } else { &item.device.alarm }.get()?;
            let origin = origin::card(&item.device.id, &[]);
            Some(Given::new(format!("{symbol}({})", item.name()), Some(contact.series), origin))
        })
        .collect()
}

/// The number behind a resistor, with its tolerance.
pub(in crate::work) fn given_resistor(board: &Board, symbol: &str, ohms: Option<Ohms>) -> Given {
    let eol = &board.eol;
    let text = ohms.map(|ohms| match eol.tolerance {
        Some(tolerance) => format!("{ohms} ± {tolerance}"),
        None => format!("{ohms}, tolerance not known"),
    });
    Given::new(symbol, text, origin::card(&board.unit.id, &eol.cite))
}
