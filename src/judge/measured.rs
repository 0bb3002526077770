//! The loops that a meter was put on, each with what its cable and contact should read.

use super::case::Case;
use crate::land::{self, MeasuredPair, ohms_per_metre};

/// A measured pair with its cable.
#[derive(Debug, Clone, Copy)]
pub(super) struct Held<'a> {
    /// The cable's name.
    pub(super) cable: &'a str,
    /// What was measured.
    pub(super) pair: MeasuredPair<'a>,
    /// Ohms that cable and contact should read; `None`: not known, or its old zone is not a closed loop, so
    /// resistors may be in it.
    pub(super) sound: Option<f64>,
}

impl Held<'_> {
    /// Two colours as a person says them.
    pub(super) fn cores(&self) -> String {
        format!("{} and {}", self.pair.colours.0, self.pair.colours.1)
    }
}

/// Every measured pair of the site, in survey order.
pub(super) fn measured_pairs<'a>(case: &Case<'a>) -> Vec<Held<'a>> {
    let cables = case.job.cables.iter().enumerate();
    cables
        .flat_map(|(at, cable)| {
            land::measured_pairs(case.job, at).into_iter().map(move |pair| Held {
                cable: &cable.survey.cable,
                pair,
                sound: if pair.closed { cable_ohms(case, at).map(|ohms| ohms + pair.series) } else { None },
            })
        })
        .collect()
}

/// Ohms of the cable there and back at its longest length, as for a loop's nominal figure.
fn cable_ohms(case: &Case<'_>, cable: usize) -> Option<f64> {
    let length = (*case.plan.lengths.get(cable)?)?;
    Some(2.0 * ohms_per_metre(case.job, case.job.cables.get(cable)?.kind)? * length.longest)
}
