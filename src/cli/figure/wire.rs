//! The cores that were asked about.

use super::args::WireArgs;
use super::nothing_of;
use crate::cli::report::Report;
use crate::model::{Conductor, Library};
use crate::units::Celsius;
use crate::work::alone::Wire;

/// The cores of a card, or those that were typed.
///
/// # Errors
/// When the library has no such cable card.
pub(super) fn wire(library: &Library, asked: &WireArgs, celsius: Option<Celsius>) -> Result<Wire, Report> {
    let typed = asked.area.map(Conductor::Area).or(asked.ohms_per_km.map(Conductor::OhmsPerKm));
    if let Some(conductor) = typed {
        return Ok(Wire::typed(conductor, celsius));
    }
    let id = asked.cable.as_deref().unwrap_or_default();
    let cable = library
        .cables
        .get(id)
        .ok_or_else(|| nothing_of("cable card", id, library.cables.keys().map(String::as_str)))?;
    Ok(Wire::of_card(cable, celsius))
}
