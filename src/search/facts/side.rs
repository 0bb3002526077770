//! The side of the supply that a mark of a card belongs to: as the mark itself says, else as its row says, else by what
//! it is used for.

use crate::model::{Board, Card, Device, OutputKind, Panel, Polarity, Returns, Siren, SirenTrigger};
use crate::search::mark::{self, Sign};
use crate::search::side::{Side, switched};

/// The side of a mark; none where nothing says it, or where its uses say both.
pub(super) fn of(card: Card<'_>, mark: &str) -> Option<Side> {
    as_marked(card, mark).or_else(|| match card {
        Card::Panel(panel) => in_siren(panel, mark),
        Card::Board(board) => in_outputs(board, mark),
        Card::Supply(_) | Card::Device(_) | Card::Cable(_) => None,
    })
}

/// The side of one trigger, whatever else its terminal fires.
pub(super) fn of_trigger(card: Card<'_>, trigger: &SirenTrigger) -> Option<Side> {
    as_marked(card, &trigger.terminal).or_else(|| trigger.fires.map(Side::Fires))
}

/// The side that fires a device; none where its triggers want both, or one is not known.
pub(super) fn of_device(device: &Device) -> Option<Side> {
    let mut signs = device.triggers.iter().map(|trigger| trigger.fires.map(switched));
    let first = signs.next()??;
    signs.all(|sign| sign == Some(first)).then_some(Side::FiredBy(first))
}

/// What the mark says, or else its row.
fn as_marked(card: Card<'_>, mark: &str) -> Option<Side> {
    let row = || card.unit()?.terminal(mark)?.polarity.map(sign);
    mark::key(mark).sign.or_else(row).map(Side::Is)
}

fn sign(polarity: Polarity) -> Sign {
    match polarity {
        Polarity::Positive => Sign::Plus,
        Polarity::Negative => Sign::Minus,
    }
}

fn in_siren(panel: &Panel, mark: &str) -> Option<Side> {
    let siren = panel.siren.get()?;
    let is_it = |used: Option<&String>| used.is_some_and(|used| used == mark);
    if is_it(siren.hold_off.get()) {
        return Some(Side::Is(Sign::Plus));
    }
    if is_it(siren.negative.get()) {
        return Some(Side::Is(Sign::Minus));
    }
    fires(siren, mark).or_else(|| returns(siren, mark))
}

fn fires(siren: &Siren, mark: &str) -> Option<Side> {
    let mut fires = siren.triggers.iter().filter(|t| t.terminal == mark).filter_map(|t| t.fires);
    let first = fires.next()?;
    fires.all(|other| switched(other) == switched(first)).then_some(Side::Fires(first))
}

fn returns(siren: &Siren, mark: &str) -> Option<Side> {
    match siren.tamper.get().filter(|tamper| tamper.terminal == mark)?.returns? {
        Returns::Negative => Some(Side::Returns(Sign::Minus)),
        Returns::Positive => Some(Side::Returns(Sign::Plus)),
        Returns::Pair => None,
    }
}

fn in_outputs(board: &Board, mark: &str) -> Option<Side> {
    let switches = |kind: &OutputKind| matches!(kind, OutputKind::OpenCollector { terminal } if terminal == mark);
    board.outputs.iter().any(|output| switches(&output.kind)).then_some(Side::Switches(Sign::Minus))
}
