//! The card itself: its names and what can be said of the whole of it.

use super::{Owner, names, sentences};
use crate::model::{Card, CardId, Fact, PowerBlock, Unit};
use crate::search::entry::{Entry, Kind};

/// A card's id.
pub(super) fn id(card: Card<'_>) -> &CardId {
    match card {
        Card::Panel(panel) => &panel.unit.id,
        Card::Board(board) => &board.unit.id,
        Card::Supply(supply) => &supply.unit.id,
        Card::Device(device) => &device.id,
        Card::Cable(cable) => &cable.id,
    }
}

/// What a person calls a card: maker and model, or what it is.
pub(super) fn name(card: Card<'_>) -> String {
    match card {
        Card::Panel(_) | Card::Board(_) | Card::Supply(_) => card.unit().map(Unit::name).unwrap_or_default(),
        Card::Device(device) => {
            let words: Vec<&str> = [&device.maker, &device.model].into_iter().flatten().map(String::as_str).collect();
            if words.is_empty() { device.does.clone().unwrap_or_else(|| device.id.clone()) } else { words.join(" ") }
        }
        Card::Cable(cable) => cable.does.clone().unwrap_or_else(|| cable.id.clone()),
    }
}

/// What a card is.
fn noun(card: Card<'_>) -> &'static str {
    match card {
        Card::Panel(_) => "Old panel",
        Card::Board(_) => "New board",
        Card::Supply(_) => "Boxed power supply",
        Card::Device(_) => "Device",
        Card::Cable(_) => "Cable type",
    }
}

/// The entry of a unit's card.
pub(super) fn entry(owner: &Owner<'_>, card: Card<'_>, unit: &Unit) -> Entry {
    let mut called = vec![noun(card).to_string()];
    if !unit.also.is_empty() {
        called.push(format!("Also {}", unit.also.join(", ")));
    }
    if !unit.markings.is_empty() {
        called.push(format!("Marked {}", unit.markings.join(", ")));
    }
    let mut holds = vec![format!("{} terminals, {} fuses", unit.terminals.len(), unit.fuses.len())];
    holds.extend(power(&unit.power));
    let searched = sentences([noun(card).to_string()].into_iter().chain(holds.iter().cloned()));
    let mut entry = owner.entry(Kind::Card, None, sentences(called.into_iter().chain(holds)));
    entry.hit.title = format!("{}, {}", owner.name, noun(card).to_lowercase());
    entry.searched = Some(searched);
    entry.names = names::all(card);
    entry
}

/// What a unit can feed, in sentences.
fn power(power: &Fact<PowerBlock>) -> Vec<String> {
    let Some(block) = power.get() else { return Vec::new() };
    let out = block.out.as_ref().map(|(plus, minus)| format!("feeds at {plus} and {minus}"));
    let volts = block.volts.map(|v| v.to_string());
    let limit = block.limit.map(|a| format!("limit {a}"));
    let own = block.own.map(|a| format!("own drain {a}"));
    let charge = block.charge.map(|a| format!("charges its battery with {a}"));
    let supply: Vec<String> = [out, volts, limit, own, charge].into_iter().flatten().collect();
    let mut parts = Vec::new();
    if !supply.is_empty() {
        parts.push(format!("Power: {}", supply.join(", ")));
    }
    if let Some(quiet) = &block.quiet {
        parts.push(format!("Quiet with its loops lifted: {quiet}"));
    }
    parts
}
