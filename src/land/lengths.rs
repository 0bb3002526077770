//! How long each cable is: as surveyed, or worked from the first closed loop that was measured on it.

use super::{CableLength, worked_from};
use crate::formula::{copper, drop};
use crate::model::{Cable, Conductor, Job, JobCable};
use crate::units::Celsius;

/// Ohms of one metre of one core at the survey's temperature; `None`: the cable card does not say.
#[must_use]
pub fn ohms_per_metre(job: &Job<'_>, kind: &Cable) -> Option<f64> {
    ohms_per_metre_at(kind, job.survey.temperature)
}

/// Ohms of one metre of one core at this temperature; `None`: the cable card does not say.
#[must_use]
pub fn ohms_per_metre_at(kind: &Cable, celsius: Celsius) -> Option<f64> {
    let at_20 = match kind.conductor? {
        Conductor::OhmsPerKm(ohms) => ohms.get() / 1000.0,
        Conductor::Area(area) => copper::per_metre_of_area(area.get())?,
        Conductor::Strands { count, diameter } => {
            copper::per_metre_of_area(copper::area_of_strands(count, diameter.get()))?
        }
    };
    let ohms = copper::at_temperature(at_20, celsius.get());
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

/// The length that a measured loop gives.
fn worked_length(job: &Job<'_>, at: usize, cable: &JobCable<'_>) -> Option<f64> {
    let (pair, ohms) = worked_from(job, at)?;
    drop::length_of_loop(ohms, pair.series, ohms_per_metre(job, cable.kind)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Ohms, Quantity};

    /// Copper's coefficient would have it conduct for nothing under -234 °C, where it holds no longer.
    #[test]
    fn no_cable_has_less_than_no_resistance() {
        let conductor = Ohms::read("80 Ω").ok().map(Conductor::OhmsPerKm);
        let mut kind = Cable { id: "six".into(), does: None, cores: Vec::new(), conductor, rating: None };
        let at = |kind: &Cable, celsius: f64| ohms_per_metre_at(kind, Celsius::new(celsius)?);
        assert_eq!(at(&kind, 20.0), Some(0.08));
        assert_eq!(at(&kind, -260.0), None);
        kind.conductor = None;
        assert_eq!(at(&kind, 20.0), None);
    }
}
