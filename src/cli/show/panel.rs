//! An old panel: siren wiring, zones, tamper.

use super::unit::{fact, first, rest, screws};
use super::{line, or_not_known, section};
use crate::cli::table::table;
use crate::model::{Fact, Fires, Pair, Panel, Siren, SirenTamper, Wiring};
use crate::search::known;

/// Every section of a panel.
pub(super) fn sections(panel: &Panel) -> Vec<String> {
    let mut sections = vec![first(&panel.unit, "old panel")];
    sections.extend(screws(&panel.unit));
    sections.push(siren(&panel.siren));
    sections.push(section("Zones", &zones(panel)));
    sections.push(fact("Tamper", &panel.tamper, |pair| format!("  {}\n", pair_text(pair))));
    sections.extend(rest(&panel.unit));
    sections
}

/// How the external sounder is wired. When nobody knows, the measurement that tells.
fn siren(siren: &Fact<Siren>) -> String {
    if siren.is_not_known() {
        let text = "  not known: measure each terminal of the sounder's strip against negative, at rest and fired\n";
        return section("External sounder", text);
    }
    fact("External sounder", siren, |siren| {
        let mut text = line("Hold-off", &mark(&siren.hold_off)) + &line("Negative", &mark(&siren.negative));
        for trigger in &siren.triggers {
            let fires = or_not_known(trigger.fires.map(Fires::word));
            text.push_str(&line(
                &format!("Trigger {}", trigger.trigger),
                &format!("{}, fires: {fires}", trigger.terminal),
            ));
        }
        let tamper = match &siren.tamper {
            Fact::Is(tamper) => tamper_text(tamper),
            Fact::Absent => "none".to_string(),
            Fact::NotKnown => "not known".to_string(),
        };
        text.push_str(&line("Tamper", &tamper));
        if !siren.cite.is_empty() {
            text.push_str(&line("Known", &known(&siren.cite)));
        }
        text
    })
}

fn mark(fact: &Fact<String>) -> String {
    match fact {
        Fact::Is(mark) => mark.clone(),
        Fact::Absent => "none".to_string(),
        Fact::NotKnown => "not known".to_string(),
    }
}

fn tamper_text(tamper: &SirenTamper) -> String {
    let returns = match (&tamper.with, tamper.returns) {
        (Some(with), _) => format!("with {with}"),
        (None, Some(returns)) => returns.word().to_string(),
        (None, None) => "not known".to_string(),
    };
    format!("{}, returns: {returns}", tamper.terminal)
}

fn zones(panel: &Panel) -> String {
    let rows: Vec<Vec<String>> = panel
        .zones
        .iter()
        .map(|zone| {
            let pair = format!("{}, {}", zone.pair.out, zone.pair.back);
            let wiring = or_not_known(zone.pair.wiring.map(Wiring::word));
            vec![zone.zone.clone(), pair, wiring, zone.tamper.as_ref().map(pair_text).unwrap_or_default()]
        })
        .collect();
    table(&["zone", "terminals", "wiring", "own tamper"], &rows)
}

fn pair_text(pair: &Pair) -> String {
    format!("{}, {}: {}", pair.out, pair.back, pair.wiring.map_or("wiring not known", Wiring::word))
}
