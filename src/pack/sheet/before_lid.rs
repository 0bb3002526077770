//! What is asked and looked at before any lid is opened.

use super::{Cell, Part, Stage, Wanted};

/// The stage.
pub(super) fn stage(wanted: &Wanted<'_>) -> Stage {
    let how = vec![
        "Lid shut. Ask the people who use the alarm, and walk round the building once.".to_string(),
        "Ask now what else hangs on the panel, stage 7, and write it down there: it decides what may be switched off."
            .into(),
    ];
    Stage::new("Before the lid", how, vec![site(), alarm(wanted), walk()])
}

fn site() -> Part {
    Part::fields(
        "The site",
        vec![
            [Cell::name("Name"), Cell::blank("site.name", 44), Cell::said("as the office knows it")],
            [Cell::name("Address"), Cell::blank("site.address", 44), Cell::said("")],
            [Cell::name("Access"), Cell::blank("site.access", 44), Cell::said("keys, hours, who lets one in")],
            [
                Cell::name("Visited"),
                Cell::blank("visited", 24),
                Cell::said("year-month-day, for example 2026-11-03; two-digit years are misread"),
            ],
            [Cell::name("By"), Cell::blank("by", 24), Cell::said("initials")],
        ],
    )
}

fn alarm(wanted: &Wanted<'_>) -> Part {
    Part::fields(
        "The alarm",
        vec![
            panel(wanted),
            [
                Cell::name("Receiving centre"),
                Cell::choice("site.monitored", &["yes, one watches it", "no, none does"]).takes(["yes", "no"]),
                Cell::said("yes: put it on test before going on. Spoke to ............ until ............"),
            ],
            [
                Cell::name("Mains failure reported"),
                Cell::choice("site.mains_fail_reported", &["yes", "no"]),
                Cell::said("whether a mains failure is signalled away; ask the centre"),
            ],
            [
                Cell::name("Service code"),
                Cell::choice("service_code", &["known", "not-known"]),
                Cell::said("never the code itself. Without it every lid opened is a tamper alarm"),
            ],
            [
                Cell::name("Mains isolator"),
                Cell::blank("mains.isolator", 30),
                Cell::said("where it is and what it is; write none if there is none, and STOP: no lid is opened"),
            ],
            [
                Cell::name("What comes in"),
                Cell::noted(0).after("☐ mains AC  ☐ low-voltage AC  ☐ DC"),
                Cell::said(
                    "a plug-in or remote transformer is an isolator to find too; a tester on the wrong range sees nothing",
                ),
            ],
        ],
    )
}

/// Which panel it is, and how one tells.
fn panel(wanted: &Wanted<'_>) -> [Cell; 3] {
    match wanted.panel {
        Some(panel) => {
            let unit = &panel.unit;
            let marked = match unit.markings.as_slice() {
                [] => "the card gives no marking: note what is printed on the lid and the circuit board".to_string(),
                markings => format!("printed on it should be: {}", markings.join(", ")),
            };
            let text = format!("{}: {}", unit.id, super::cell::boxes(&["it is this one", "it is another:"]));
            let blank = Cell::blank("panel", 16).after(text).filled(&unit.id);
            [Cell::name("Panel"), blank.takes(wanted.library.panels.keys().map(String::as_str)), Cell::said(marked)]
        }
        None => [
            Cell::name("Panel"),
            Cell::blank("panel", 24)
                .after(format!("{}?", wanted.name))
                .takes(wanted.library.panels.keys().map(String::as_str)),
            Cell::said("maker, model and everything printed on lid and circuit board: it needs a card first"),
        ],
    }
}

fn walk() -> Part {
    Part::fields(
        "Round the building",
        vec![
            [
                Cell::name("External sounders"),
                Cell::noted(30),
                Cell::said("how many, on which walls, how high; what it takes to reach each"),
            ],
            [
                Cell::name("Temperature"),
                Cell::blank("temperature", 12).unit("C"),
                Cell::said("where battery and cables are, at its usual; left out: 20 C"),
            ],
        ],
    )
}
