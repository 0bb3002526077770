//! Where a figure comes from, in the words that pages show.

use crate::formula::Given;
use crate::land::{Plan, ohms_per_metre};
use crate::model::{Cite, Conductor, Job};
use crate::units::{Metres, Window, plain};

/// What the survey says.
pub(super) const SURVEY: &str = "survey";

/// A card, and the places in its sources.
pub(super) fn card(id: &str, cites: &[Cite]) -> String {
    let places: Vec<String> = cites.iter().map(|cite| format!("{} {}", cite.source, cite.place)).collect();
    let places: Vec<&str> = places.iter().map(|place| place.trim()).collect();
    if places.is_empty() { format!("card {id}") } else { format!("card {id}, {}", places.join(", ")) }
}

/// The temperature that the figures are worked for.
pub(super) fn temperature(job: &Job<'_>) -> Given {
    let origin = if job.survey.temperature_given { SURVEY } else { "assumed" };
    Given::new("t", Some(job.survey.temperature), origin)
}

/// The resistance of one metre of one core of a cable, at the survey's temperature.
pub(super) fn ohms_of_core(job: &Job<'_>, cable: usize) -> Given {
    let kind = job.cables[cable].kind;
    let ohms = ohms_per_metre(job, kind).map(|r| format!("{} Ω/m", plain(r, 5)));
    let origin = match kind.conductor {
        Some(Conductor::OhmsPerKm(_)) | None => card(&kind.id, &[]),
        Some(Conductor::Area(_) | Conductor::Strands { .. }) => format!("{}; copper by IEC 60028", card(&kind.id, &[])),
    };
    Given::new(format!("r({})", job.cables[cable].survey.cable), ohms, origin)
}

/// The length of a cable.
pub(super) fn length(job: &Job<'_>, plan: &Plan, cable: usize) -> Given {
    let symbol = format!("L({})", job.cables[cable].survey.cable);
    let known = plan.lengths.get(cable).copied().flatten();
    let text = known.and_then(|length| {
        let (low, high) = (Metres::new(length.shortest)?, Metres::new(length.longest)?);
        Some(if low == high { high.to_string() } else { Window { low, high }.to_string() })
    });
    let origin = if known.is_some_and(|length| length.worked) { "worked from a measured loop" } else { SURVEY };
    Given::new(symbol, text, origin)
}

/// The resistance of one core of a cable, over its longest or its shortest length; `None`: not known.
pub(super) fn core_ohms(job: &Job<'_>, plan: &Plan, cable: usize, shortest: bool) -> Option<f64> {
    let length = plan.lengths.get(cable).copied().flatten()?;
    let metres = if shortest { length.shortest } else { length.longest };
    Some(ohms_per_metre(job, job.cables.get(cable)?.kind)? * metres)
}
