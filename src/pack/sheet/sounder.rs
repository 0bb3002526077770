//! The external sounder: how the panel drives it, which is read while it sounds, and what is seen at the sounder itself.

use super::{Cell, Part, Stage, Wanted, siren};
use crate::model::{DeviceClass, Library, Panel};
use crate::pack::panel::Line;

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let how = vec![
        "Ears protected, safe footing, own battery isolated (stage 3). Water inside: stop.".to_string(),
        "The same letter on two strips means different things: map by what is measured, never by letter or colour."
            .into(),
    ];
    Stage::new("External sounder", how, vec![inside(wanted.library)])
}

const HEADS: [&str; 4] = ["What", "On this panel", "Known by", "Volts while it sounds"];

const WHILE: &str = "Sound it once from the panel, everybody warned, ears protected, nobody on a ladder: what works today \
                     is known afterwards. At the panel, each against the sounder's negative.";

/// How the panel drives its sounder, to be read while it sounds.
pub(super) fn drives(panel: Option<&Panel>) -> Part {
    let title = "The sounder's screws, while it sounds";
    match panel {
        Some(panel) => Part::new(title, &HEADS, siren(panel).iter().map(row).collect()).with(WHILE).with(
            "CONFIRM is printed where the card knows from a label or hearsay only: what is measured there goes into settled, \
             code confirm-on-site, about the mark, says what was measured, by whom.",
        ),
        None => Part::new(title, &HEADS, blank_rows()).with(WHILE).with(
            "A trigger fires by negative applied, negative removed, positive applied or positive removed: write which. It \
             goes onto the panel's card.",
        ),
    }
}

fn row(line: &Line) -> Vec<Cell> {
    let room = if line.known.confirm {
        let settles = Cell::blank("settled.says", 20).after("CONFIRM:");
        settles.and("settled.code").and("settled.about").and("settled.by")
    } else {
        Cell::noted(16).unit("V")
    };
    vec![Cell::name(&line.what), Cell::said(&line.text), Cell::said(&line.known.text), room]
}

/// The wiring when no card gives it.
fn blank_rows() -> Vec<Vec<Cell>> {
    let row = |what: &str| {
        vec![Cell::name(what), Cell::noted(10).after("mark"), Cell::said("no card"), Cell::noted(16).unit("V")]
    };
    ["Hold-off", "Negative", "Fires the siren", "Fires the strobe", "Tamper"].into_iter().map(row).collect()
}

/// What the sounder's own card must say.
fn inside(library: &Library) -> Part {
    let cards = library.devices.values().filter(|d| d.class == Some(DeviceClass::ExternalSounder));
    let cards: Vec<&str> = cards.map(|device| device.id.as_str()).collect();
    let cards = if cards.is_empty() { "the library has none".into() } else { cards.join(", ") };
    Part::fields(
        "At the sounder",
        vec![
            [
                Cell::name("Its cable, its make"),
                Cell::noted(24),
                Cell::said(format!("which settles its device in stage 4. Cards: {cards}")),
            ],
            [
                Cell::name("Own battery"),
                Cell::noted(10).after("☐ none  ☐ there, made"),
                Cell::said("there: it is self-activating. A nickel stack lasts about five years"),
            ],
            [
                Cell::name("Which core on which of its screws"),
                Cell::noted(40),
                Cell::said("colour = mark, for each core; photograph it"),
            ],
            [
                Cell::name("Tamper returns to"),
                Cell::noted(0).after("☐ its negative  ☐ its positive  ☐ a core of its own"),
                Cell::said("traced with the meter, cores off, its lid held shut"),
            ],
            [
                Cell::name("Watches its trigger"),
                Cell::noted(0).after("☐ yes: about 1 kΩ to positive at the panel  ☐ no"),
                Cell::said("it chirps when the trigger wire is off, or the panel has a resistor there"),
            ],
        ],
    )
}
