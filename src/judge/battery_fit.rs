//! `battery-fit`: a battery of a capacity that the power source is not made for. Too large a one never charges in
//! time, or does not go into the case.

use super::case::Case;
use super::types::Finding;
use crate::model::Fact;
use crate::units::AmpHours;

const CODE: &str = "battery-fit";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let Some(fitted) = case.figures.battery.fitted_ah else { return Vec::new() };
    let Some(source) = &case.job.source else { return Vec::new() };
    let fits: &[AmpHours] = match source.block.map(|b| &b.battery) {
        Some(Fact::Is(battery)) if !battery.fits.is_empty() => &battery.fits,
        Some(Fact::Absent) => &[],
        _ => return Vec::new(),
    };
    if fits.iter().any(|f| (f.get() - fitted).abs() < 1e-9) {
        return Vec::new();
    }
    let fitted = AmpHours::new(fitted).map_or_else(String::new, |f| f.to_string());
    let name = source.unit.name();
    let says = if fits.is_empty() {
        format!("{name} takes no battery, and {fitted} is to be fitted. Look where the battery leads go.")
    } else {
        let fits: Vec<String> = fits.iter().map(AmpHours::to_string).collect();
        let fits = fits.join(" or ");
        format!("The battery is {fitted}; {name} takes {fits}. Read the capacity again, or fit one that it takes.")
    };
    vec![Finding::warning(CODE, "battery", says)]
}
