//! What only an old panel has: siren wiring, zones, the tamper pair.

use super::{Owner, fuse, sentences, side, unit};
use crate::model::{Card, Cite, Fires, Library, Pair, Panel, Siren, SirenTamper, Unit};
use crate::search::entry::{Entry, Kind};
use crate::search::{danger, known};

/// Every fact of a panel.
pub(super) fn entries(library: &Library, panel: &Panel) -> Vec<Entry> {
    let card = Card::Panel(panel);
    let owner = Owner::new(card);
    let mut entries = unit::with_roles(library, card, &panel.unit, &|mark| roles(panel, mark));
    // People call the pair by its positive: `hold-off minus`.
    let siren_block = panel.siren.get().filter(|siren| siren.hold_off.get().is_some());
    if let Some(negative) = siren_block.and_then(|siren| siren.negative.get()) {
        let of_it = |entry: &&mut Entry| entry.hit.kind == Kind::Terminal && entry.hit.mark.as_ref() == Some(negative);
        entries.iter_mut().filter(of_it).for_each(|entry| entry.extra.push_str(" hold-off"));
    }
    entries.extend(siren(&owner, panel));
    entries.extend(zones(&owner, panel));
    entries
}

/// What a mark is used for, beside what its own row says.
fn roles(panel: &Panel, mark: &str) -> Vec<String> {
    let mut roles = Vec::new();
    for trigger in panel.siren.get().into_iter().flat_map(|s| &s.triggers).filter(|t| t.terminal == mark) {
        roles.push(format!("Fires the {}: {}", trigger.trigger, fires(trigger.fires.map(Fires::word))));
    }
    for zone in panel.zones.iter().filter(|z| z.pair.out == mark || z.pair.back == mark) {
        roles.push(format!("Zone {}: {}", zone.zone, pair_text(&zone.pair)));
    }
    if let Some(pair) = panel.tamper.get().filter(|p| p.out == mark || p.back == mark) {
        roles.push(format!("Tamper loop: {}", pair_text(pair)));
    }
    roles
}

fn fires(word: Option<&'static str>) -> &'static str {
    word.unwrap_or("how it fires is not known")
}

fn pair_text(pair: &Pair) -> String {
    let wiring = pair.wiring.map_or("wiring not known", |w| w.word());
    format!("{} and {}, {wiring}", pair.out, pair.back)
}

/// How the external sounder is wired, a fact for each of its terminals; that it is not known is a fact too.
fn siren(owner: &Owner<'_>, panel: &Panel) -> Vec<Entry> {
    let Some(siren) = panel.siren.get() else {
        if panel.siren.is_absent() {
            return Vec::new();
        }
        let text =
            "How the external sounder is wired is not known: measure each terminal of its strip, at rest and fired.";
        return vec![owner.entry(Kind::Siren, None, text.to_string())];
    };
    let mut entries = Vec::new();
    if let Some(mark) = siren.hold_off.get() {
        // In other words than the danger beside it, for to activate is to trigger, and this is no trigger.
        let text = "Hold-off: when it is lost, a sounder that can sound by itself does.";
        entries.push(of_siren(owner, panel, siren, mark, text.to_string()));
    }
    if let Some(mark) = siren.negative.get() {
        let held = if siren.hold_off.get().is_some() { " and of its hold-off" } else { "" };
        let text = format!("Negative of the external sounder{held}.");
        entries.push(of_siren(owner, panel, siren, mark, text));
    }
    for trigger in &siren.triggers {
        let text = format!("Trigger {}: {}.", trigger.trigger, fires(trigger.fires.map(Fires::word)));
        let mut entry = of_siren(owner, panel, siren, &trigger.terminal, text);
        entry.hit.side = side::of_trigger(owner.card, trigger);
        entries.push(entry);
    }
    if let Some(tamper) = siren.tamper.get() {
        entries.push(of_siren(owner, panel, siren, &tamper.terminal, tamper_text(tamper)));
    }
    entries
}

fn tamper_text(tamper: &SirenTamper) -> String {
    let returns = match (&tamper.with, tamper.returns) {
        (Some(with), _) => format!("comes back on {with}"),
        (None, Some(returns)) => format!("returns {}", returns.word()),
        (None, None) => "what it returns to is not known".to_string(),
    };
    format!("Tamper of the external sounder, {returns}.")
}

fn of_siren(owner: &Owner<'_>, panel: &Panel, siren: &Siren, mark: &str, text: String) -> Entry {
    let terminal = panel.unit.terminal(mark);
    let does = terminal.and_then(|t| t.does.clone());
    let mut entry = owner.entry(Kind::Siren, Some(mark), text);
    let dangers = danger::of_siren(Some(panel), mark);
    entry.hit.danger = (!dangers.is_empty()).then(|| dangers.join("; "));
    entry.hit.volts = terminal.and_then(|t| t.volts).map(|v| v.to_string());
    entry.hit.fuse = terminal.and_then(|t| t.fuse.as_ref()).map(|mark| fuse::named(&panel.unit, mark));
    entry.hit.known = Some(known(cites(&siren.cite, &panel.unit, mark)));
    entry.hit.side = side::of(owner.card, mark);
    entry.extra = format!("external sounder wiring {}", does.unwrap_or_default());
    entry
}

/// A block's own cites; without any, those of its terminal.
fn cites<'a>(own: &'a [Cite], unit: &'a Unit, mark: &str) -> &'a [Cite] {
    if own.is_empty() { unit.terminal(mark).map_or(&[], |t| t.cite.as_slice()) } else { own }
}

fn zones(owner: &Owner<'_>, panel: &Panel) -> Vec<Entry> {
    let mut entries = Vec::new();
    for zone in &panel.zones {
        entries.push(of_pair(owner, panel, &format!("Zone {}", zone.zone), &zone.pair));
        if let Some(tamper) = &zone.tamper {
            entries.push(of_pair(owner, panel, &format!("Tamper of zone {}", zone.zone), tamper));
        }
    }
    if let Some(tamper) = panel.tamper.get() {
        entries.push(of_pair(owner, panel, "Tamper loop", tamper));
    }
    entries
}

fn of_pair(owner: &Owner<'_>, panel: &Panel, what: &str, pair: &Pair) -> Entry {
    let mut entry =
        owner.entry(Kind::Zone, Some(&pair.out), sentences([format!("{what}: terminals {}", pair_text(pair))]));
    entry.hit.title = format!("{what} of {}", owner.name);
    entry.hit.known = Some(known(cites(&pair.cite, &panel.unit, &pair.out)));
    entry.related = vec![pair.back.clone()];
    entry
}
