//! What is still missing on one card, for the one who is writing it.

use super::{Gap, Kind, Relied, gaps};
use crate::model::{Card, Library, Terminal};

/// What a card does not say yet, the most harmful first: the sounder's wiring, what holds it off, mains, fuses, then
/// what its terminals lack. Empty for a card that the library does not have.
#[must_use]
pub fn missing(library: &Library, card: &str) -> Vec<String> {
    let Some(unit) = library.card(card).and_then(Card::unit) else { return Vec::new() };
    let harms = [Kind::Siren, Kind::HoldOff, Kind::Mains, Kind::Fuse];
    let mut found = gaps(library, &Relied::default(), None);
    found.retain(|gap| gap.card == card && harms.contains(&gap.kind));
    let mut out: Vec<String> = found.iter().map(said).collect();
    let lack = |what: &str, lacks: fn(&Terminal) -> bool| {
        let count = unit.terminals.iter().filter(|terminal| lacks(terminal)).count();
        (count > 0).then(|| format!("{what}: {count} of {} terminals", unit.terminals.len()))
    };
    if unit.terminals.is_empty() {
        out.push("Its terminals".to_owned());
    }
    out.extend(lack("What it does", |terminal| terminal.does.is_none()));
    out.extend(lack("Where it is from (no cite: printed as unverified)", |terminal| terminal.cite.is_empty()));
    out.extend(lack("Its group", |terminal| terminal.group.is_none()));
    out
}

fn said(gap: &Gap) -> String {
    match &gap.about {
        Some(mark) => format!("{mark}: {}", gap.says),
        None => gap.says.clone(),
    }
}
