//! The panel card.

use super::super::keys::words;
use super::super::sheet::Sheet;
use super::names::Names;
use super::unit::{self, Card};
use super::{cite, look};
use crate::model::{Pair, Panel, Siren, SirenTamper, SirenTrigger, Zone};
use crate::source::Node;

/// A panel.
pub(crate) fn panel(sheet: &mut Sheet<'_>, root: &Node) -> Panel {
    let card = Card::new(sheet, root);
    Names::of_rows(sheet, look::rows(root, "zones"), "zone", "zone of this card");
    Panel {
        unit: unit::unit(sheet, root, &card),
        zones: look::rows(root, "zones").filter_map(|row| zone(sheet, row, &card)).collect(),
        tamper: look::fact(root, "tamper", |block| pair(sheet, block, &card)),
        siren: look::fact(root, "siren", |block| Some(siren(sheet, block, &card))),
    }
}

fn zone(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<Zone> {
    let own = row.get("tamper").and_then(|block| pair(sheet, block, card));
    Some(Zone { zone: look::name(row, "zone"), pair: pair(sheet, row, card)?, tamper: own })
}

fn pair(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Option<Pair> {
    let (out, back) = card.terminals.pair_at(sheet, block, "terminals")?;
    Some(Pair { out, back, wiring: look::word(block, "wiring", &words::WIRING), cite: cite::of(block, &card.sources) })
}

fn siren(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Siren {
    Names::of_rows(sheet, look::rows(block, "triggers"), "trigger", "trigger of this card");
    Siren {
        hold_off: look::fact(block, "hold_off", |node| card.terminals.find(sheet, node)),
        negative: look::fact(block, "negative", |node| card.terminals.find(sheet, node)),
        triggers: look::rows(block, "triggers").filter_map(|row| trigger(sheet, row, card)).collect(),
        tamper: look::fact(block, "tamper", |inner| tamper(sheet, inner, card)),
        cite: cite::of(block, &card.sources),
    }
}

fn trigger(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<SirenTrigger> {
    Some(SirenTrigger {
        trigger: look::name(row, "trigger"),
        terminal: card.terminals.key(sheet, row, "terminal")?,
        fires: look::word(row, "fires", &words::FIRES),
    })
}

fn tamper(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Option<SirenTamper> {
    let returns = look::word(block, "returns", &words::RETURNS);
    let with = card.terminals.key(sheet, block, "with");
    Some(SirenTamper { terminal: card.terminals.key(sheet, block, "terminal")?, returns, with })
}
