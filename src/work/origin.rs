//! Where a figure comes from, in the words that pages show.

use crate::formula::Given;
use crate::land::{Plan, ohms_per_metre, ohms_per_metre_at, worked_from};
use crate::model::{Cable, Cite, Conductor, Job};
use crate::units::{Celsius, Metres, Ohms, Window, plain};

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
    let seen = &job.cables[cable];
    let symbol = format!("r({})", seen.survey.cable);
    ohms_of_type(symbol, seen.kind, job.survey.temperature, &card(&seen.kind.id, &[]))
}

/// The resistance of one metre of one core of a cable type, at a temperature. `from` is where the type is from.
pub(super) fn ohms_of_type(symbol: impl Into<String>, kind: &Cable, celsius: Celsius, from: &str) -> Given {
    let ohms = ohms_per_metre_at(kind, celsius).map(|r| format!("{} Ω/m", plain(r, 5)));
    let origin = match kind.conductor {
        Some(Conductor::OhmsPerKm(_)) | None => from.to_string(),
        Some(Conductor::Area(area)) => format!("{from}; 0.017241 Ω·mm²/m / {area}, copper by IEC 60028"),
        Some(Conductor::Strands { count, diameter }) => {
            format!("{from}; {count} strands of {diameter}, 0.017241 Ω·mm²/m, copper by IEC 60028")
        }
    };
    Given::new(symbol, ohms, origin)
}

/// The length of a cable.
pub(super) fn length(job: &Job<'_>, plan: &Plan, cable: usize) -> Given {
    let symbol = format!("L({})", job.cables[cable].survey.cable);
    let known = plan.lengths.get(cable).copied().flatten();
    let text = known.and_then(|length| {
        let (low, high) = (Metres::new(length.shortest)?, Metres::new(length.longest)?);
        Some(if low == high { high.to_string() } else { Window { low, high }.to_string() })
    });
    let worked = known.is_some_and(|length| length.worked);
    Given::new(symbol, text, if worked { from_loop(job, cable) } else { SURVEY.to_string() })
}

/// How a length was worked from a measured loop.
fn from_loop(job: &Job<'_>, cable: usize) -> String {
    let Some((pair, ohms)) = worked_from(job, cable).and_then(|(pair, ohms)| Some((pair, Ohms::new(ohms)?))) else {
        return "worked from a measured loop".to_string();
    };
    let series = Ohms::new(pair.series).map_or_else(String::new, |s| s.to_string());
    let (out, back) = pair.colours;
    format!("(ohms - s)/(2·r): the survey measured {ohms} on {out} and {back}; s = {series} in the contact")
}

/// The resistance of one core of a cable, over its longest or its shortest length; `None`: not known.
pub(super) fn core_ohms(job: &Job<'_>, plan: &Plan, cable: usize, shortest: bool) -> Option<f64> {
    let length = plan.lengths.get(cable).copied().flatten()?;
    let metres = if shortest { length.shortest } else { length.longest };
    Some(ohms_per_metre(job, job.cables.get(cable)?.kind)? * metres)
}
