//! How the old panel drives its external sounder, line by line.

use super::known::{known, known_block, nothing};
use super::names::fires;
use super::panel::Line;
use crate::model::{Fact, Panel, Returns};

/// The external sounder's wiring, line by line.
pub(super) fn siren(panel: &Panel) -> Vec<Line> {
    let unit = &panel.unit;
    let siren = match &panel.siren {
        Fact::NotKnown => return vec![whole("not known: trace every core of the sounder's cable before touching it")],
        Fact::Absent => return vec![whole("this panel drives no external sounder")],
        Fact::Is(siren) => siren,
    };
    let of = |mark: &str| known_block(unit, &siren.cite, [&mark.to_owned()]);
    let mark = |what: &str, fact: &Fact<String>| Line {
        what: what.into(),
        text: match fact {
            Fact::NotKnown => "not known".into(),
            Fact::Absent => "none".into(),
            Fact::Is(mark) => mark.clone(),
        },
        known: fact.get().map_or_else(nothing, |mark| of(mark)),
    };
    let mut lines = vec![mark("Hold-off", &siren.hold_off), mark("Negative", &siren.negative)];
    for trigger in &siren.triggers {
        lines.push(Line {
            what: format!("Fires the {}", trigger.trigger),
            text: format!("{}: {}", trigger.terminal, fires(trigger.fires)),
            known: of(&trigger.terminal),
        });
    }
    lines.push(match &siren.tamper {
        Fact::NotKnown => Line { what: "Tamper".into(), text: "not known".into(), known: nothing() },
        Fact::Absent => Line { what: "Tamper".into(), text: "none".into(), known: known(&siren.cite) },
        Fact::Is(tamper) => Line {
            what: "Tamper".into(),
            text: format!("{}: {}", tamper.terminal, returns(tamper.returns, tamper.with.as_deref())),
            known: of(&tamper.terminal),
        },
    });
    lines
}

/// One line for the whole of the sounder's wiring.
fn whole(text: &str) -> Line {
    Line { what: "External sounder".into(), text: text.into(), known: nothing() }
}

/// How a tamper comes back, in words.
fn returns(returns: Option<Returns>, with: Option<&str>) -> String {
    match (returns, with) {
        (None, _) => "what it returns to is not known".into(),
        (Some(Returns::Pair), Some(with)) => format!("returns on {with}"),
        (Some(Returns::Pair), None) => "returns on a core of its own".into(),
        (Some(Returns::Negative), _) => "returns to the sounder's negative".into(),
        (Some(Returns::Positive), _) => "returns to the sounder's positive".into(),
    }
}
