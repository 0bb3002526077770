//! A cable type.

use super::{head, line, or_not_known, section};
use crate::model::{Cable, Conductor};
use crate::wording::colour_code;

/// Every section of a cable type.
pub(super) fn sections(cable: &Cable) -> Vec<String> {
    let name = cable.does.clone().unwrap_or_else(|| cable.id.clone());
    let cores: Vec<String> =
        cable.cores.iter().map(|core| format!("{core} ({})", or_not_known(colour_code(core)))).collect();
    let conductor = match cable.conductor {
        Some(Conductor::OhmsPerKm(ohms)) => format!("{ohms} for each kilometre of one core at 20 °C"),
        Some(Conductor::Area(area)) => format!("copper, {area}"),
        Some(Conductor::Strands { count, diameter }) => format!("copper, {count} strands of {diameter}"),
        None => "not known".to_string(),
    };
    let text = line("Cores, in cable order", &cores.join(", "))
        + &line("Conductor", &conductor)
        + &line("One core may carry", &or_not_known(cable.rating));
    vec![head(&name, &format!("cable type, {}", cable.id), &[], &[], &[]), section("Cores", &text)]
}
