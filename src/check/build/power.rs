//! What a unit can feed.

use super::super::sheet::Sheet;
use super::unit::Card;
use super::{cite, look};
use crate::model::{PowerBlock, StandbyBattery};
use crate::source::Node;
use crate::units::{AmpHours, Quantity};

/// A `power` block.
pub(crate) fn power(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> PowerBlock {
    PowerBlock {
        out: card.terminals.pair_at(sheet, block, "out"),
        volts: look::quantity(block, "volts"),
        limit: look::quantity(block, "limit"),
        alarm_limit: look::quantity(block, "alarm_limit"),
        fuse: card.fuses.key(sheet, block, "fuse"),
        own: look::quantity(block, "own"),
        charge: look::quantity(block, "charge"),
        cutoff: look::quantity(block, "cutoff"),
        battery: look::fact(block, "battery", |inner| Some(battery(sheet, inner, card))),
        quiet: look::text(block, "quiet"),
        cite: cite::of(block, &card.sources),
    }
}

fn battery(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> StandbyBattery {
    let mut fits: Vec<AmpHours> =
        look::texts(block, "fits").iter().filter_map(|text| AmpHours::read(text).ok()).collect();
    fits.sort_by(|a, b| a.get().total_cmp(&b.get()));
    fits.dedup();
    StandbyBattery {
        fits,
        terminals: card.terminals.list_at(sheet, block, "terminals"),
        fuse: card.fuses.key(sheet, block, "fuse"),
        cite: cite::of(block, &card.sources),
    }
}
