//! The battery that is there.

use super::{Cell, Part, Stage, Wanted};
use crate::model::Panel;

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let how = vec![
        "Its leads are off and insulated since stage 3. It is read there, and goes back when all is put back."
            .to_string(),
        "13.8 V with the charger on, or 12.7 V with the leads off, does not prove capacity: only a load does.".into(),
    ];
    Stage::new("Battery", how, vec![found(wanted.panel), tested()])
}

fn found(panel: Option<&Panel>) -> Part {
    Part::fields(
        "As found",
        vec![
            [
                Cell::name("A battery"),
                Cell::choice("battery", &["there", "none"]),
                Cell::said("none: no battery at all, the rest of this stage stays blank"),
            ],
            [
                Cell::name("Capacity"),
                Cell::blank("battery.capacity", 12).unit("Ah"),
                Cell::said(format!("as printed on it{}", fits(panel))),
            ],
            [
                Cell::name("Made"),
                Cell::blank("battery.made", 12),
                Cell::said("year and month, 2023-04, from its date code or a label; not readable: leave it blank"),
            ],
            [
                Cell::name("State"),
                Cell::choice("battery.state", &["sound", "swollen", "leaking"]),
                Cell::said("swollen or leaking: gloves and goggles, no more tests, it is replaced"),
            ],
        ],
    )
}

fn fits(panel: Option<&Panel>) -> String {
    let block = panel.and_then(|panel| panel.unit.power.get()).and_then(|power| power.battery.get());
    let fits: Vec<String> = block.map(|b| b.fits.iter().map(ToString::to_string).collect()).unwrap_or_default();
    if fits.is_empty() { String::new() } else { format!("; the panel takes {}", fits.join(" or ")) }
}

fn tested() -> Part {
    Part::fields(
        "Tested",
        vec![
            [
                Cell::name("At rest"),
                Cell::blank("battery.rest", 10).unit("V"),
                Cell::said("across its two terminals, leads off; 12.7 V to 13.2 V is as it should be"),
            ],
            [
                Cell::name("Rested"),
                Cell::blank("battery.rested", 10).unit("h"),
                Cell::said("how long the charger had been off; under 2 h is not judged, 8 h is best"),
            ],
            [
                Cell::name("Load"),
                Cell::blank("battery.load.current", 10).unit("A"),
                Cell::said("a resistor or tester that draws 5 to 10 % of the capacity: 0.35 A to 0.7 A for 7 Ah"),
            ],
            [
                Cell::name("Read after"),
                Cell::blank("battery.load.after", 10).unit("min"),
                Cell::said("10 min to 30 min counts"),
            ],
            [
                Cell::name("Volts under load"),
                Cell::blank("battery.load.volts", 10).unit("V"),
                Cell::said(
                    "load still on; 12.0 V or more passes, under 11.4 V within 15 min it goes (common practice)",
                ),
            ],
        ],
    )
}
