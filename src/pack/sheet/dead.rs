//! Dead tests: how the panel goes dead without sounding, and the fuses.

use super::{Cell, Part, Stage, Wanted};
use crate::model::{Fuse, Panel};
use crate::pack::known::or_not_known;
use crate::pack::panel::right_fuse;
use crate::pack::safety::{battery_marks, prove_dead};

const HEADS: [&str; 5] = ["Mark", "Right fuse", "Guards", "Where", "As found"];

/// Rows for fuses when no card names them.
const ROWS: usize = 6;

/// What is written of a fuse.
const FUSE: &str = "As found: rating and speed as printed on its cap, 1 A F; or blown, bridged, missing, unknown. Out one \
                    at a time, the cap read, the fuse measured (under 10 Ω is whole, common practice), back where it was. \
                    A larger one than the card's stops the job until its wiring was looked at.";

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let unit = wanted.panel.map(|panel| &panel.unit);
    let leads = unit.and_then(battery_marks).map(|marks| format!(" at {marks}")).unwrap_or_default();
    let dead = unit.map_or_else(
        || {
            "Prove the tester, test dead between every two mains screws and each against earth; prove the tester again."
                .to_string()
        },
        prove_dead,
    );
    let how = vec![
        "Nobody has seen this panel stay up on its battery. So BEFORE the mains is touched: isolate the own battery of \
         every external sounder, at the sounder, ears protected, the panel still holding it off (fill in stage 6 while \
         you are there). One that can't be reached: no dead tests, or the noise agreed beforehand with all who will \
         hear it."
            .to_string(),
        "Mains off at the isolator, locked off, the panel's battery still on. Wait five minutes and see what happens."
            .into(),
        format!("Then the battery's leads off{leads}, negative first, each lead insulated (common practice)."),
        dead,
    ];
    Stage::new("Dead tests", how, vec![mains_off(), fuses(wanted.panel)])
}

fn mains_off() -> Part {
    Part::fields(
        "Mains off",
        vec![[
            Cell::name("With the mains off"),
            Cell::choice("battery.mains_off", &["stays-up", "drops-out"]),
            Cell::said("what the panel did on its battery alone; not tried: leave it blank"),
        ]],
    )
}

fn fuses(panel: Option<&Panel>) -> Part {
    let rows: Vec<Vec<Cell>> = match panel {
        Some(panel) => panel.unit.fuses.iter().map(fuse).collect(),
        None => (0..ROWS).map(|_| blank()).collect(),
    };
    if rows.is_empty() {
        return Part::new("Fuses", &HEADS, (0..2).map(|_| blank()).collect())
            .with(format!("The card names no fuse: look for them. {FUSE}"));
    }
    Part::new("Fuses", &HEADS, rows).with(FUSE)
}

fn fuse(fuse: &Fuse) -> Vec<Cell> {
    vec![
        Cell::name(&fuse.mark),
        Cell::said(right_fuse(fuse)),
        Cell::said(or_not_known(fuse.guards.as_ref())),
        Cell::said(or_not_known(fuse.place.as_ref())),
        Cell::blank("fuses", 18),
    ]
}

fn blank() -> Vec<Cell> {
    vec![Cell::noted(6), Cell::said("no card"), Cell::noted(14), Cell::noted(12), Cell::blank("fuses", 18)]
}
