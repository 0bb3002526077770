//! The resistance of a core, worked once more from card and survey.

use std::f64::consts::PI;
use wirelore::land::Plan;
use wirelore::model::{Conductor, Job};

/// Ohms of one core of a cable over its longest (or shortest) length, at the survey's temperature. IEC 60028:
/// annealed copper has 1/58 Ω·mm²/m at 20 °C (0.017241) and 0.00393 of it more for each degree.
pub(super) fn core_ohms(job: &Job<'_>, plan: &Plan, cable: usize, shortest: bool) -> Option<f64> {
    let length = plan.lengths.get(cable).copied().flatten()?;
    let metres = if shortest { length.shortest } else { length.longest };
    let at_20 = match job.cables.get(cable)?.kind.conductor? {
        Conductor::OhmsPerKm(ohms) => ohms.get() / 1000.0,
        Conductor::Area(area) => 0.017_241 / area.get(),
        Conductor::Strands { count, diameter } => {
            0.017_241 / (f64::from(count) * PI * diameter.get() * diameter.get() / 4.0)
        }
    };
    Some(at_20 * (1.0 + 0.00393 * (job.survey.temperature.get() - 20.0)) * metres)
}
