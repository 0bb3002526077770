//! Screws, fuses, links and a history: what panels, boards and boxed supplies have in common.

use super::super::keys::words;
use super::super::sheet::Sheet;
use super::names::Names;
use super::{cite, look, power};
use crate::model::{Evidence, Fuse, Keypad, Link, Mains, PowerSupply, SourceText, Terminal, Unit};
use crate::source::Node;

/// What the blocks of a card refer to.
pub(crate) struct Card<'n> {
    /// Its terminals.
    pub(crate) terminals: Names<'n>,
    /// Its fuses.
    pub(crate) fuses: Names<'n>,
    /// Its sources.
    pub(crate) sources: Vec<SourceText>,
}

impl<'n> Card<'n> {
    /// Reads the names of a card; doubled ones are faults.
    pub(crate) fn new(sheet: &mut Sheet<'_>, root: &'n Node) -> Self {
        cite::check(sheet, root);
        Self {
            terminals: Names::of_rows(sheet, look::rows(root, "terminals"), "mark", "terminal of this card"),
            fuses: Names::of_rows(sheet, look::rows(root, "fuses"), "mark", "fuse of this card"),
            sources: cite::sources(root),
        }
    }
}

/// A boxed power supply.
pub(crate) fn supply(sheet: &mut Sheet<'_>, root: &Node) -> PowerSupply {
    let card = Card::new(sheet, root);
    PowerSupply { unit: unit(sheet, root, &card) }
}

/// The part of a card that any unit with screws has.
pub(crate) fn unit(sheet: &mut Sheet<'_>, root: &Node, card: &Card<'_>) -> Unit {
    Names::of_rows(sheet, look::rows(root, "links"), "mark", "link of this card");
    Unit {
        id: look::name(root, "id"),
        maker: look::text(root, "maker"),
        model: look::text(root, "model"),
        also: look::texts(root, "also"),
        markings: look::texts(root, "markings"),
        sources: card.sources.clone(),
        mains: look::fact(root, "mains", |block| Some(mains(sheet, block, card))),
        terminals: look::rows(root, "terminals").map(|row| terminal(sheet, row, card)).collect(),
        fuses: look::rows(root, "fuses").map(|row| fuse(row, card)).collect(),
        links: look::rows(root, "links").map(|row| link(row, card)).collect(),
        cautions: look::texts(root, "cautions"),
        power: look::fact(root, "power", |block| Some(power::power(sheet, block, card))),
        keypad: look::fact(root, "keypad", |block| Some(keypad(sheet, block, card))),
    }
}

fn mains(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Mains {
    Mains {
        terminals: card.terminals.list_at(sheet, block, "terminals"),
        fuse: card.fuses.key(sheet, block, "fuse"),
        cite: cite::of(block, &card.sources),
    }
}

fn terminal(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Terminal {
    Terminal {
        mark: look::name(row, "mark"),
        group: look::word(row, "group", &words::GROUP),
        does: look::text(row, "does"),
        polarity: look::word(row, "polarity", &words::POLARITY),
        volts: look::window(row, "volts"),
        limit: look::quantity(row, "limit"),
        fuse: card.fuses.key(sheet, row, "fuse"),
        notes: look::text(row, "notes"),
        cite: cite::of(row, &card.sources),
        evidence: Evidence::default(),
    }
}

fn fuse(row: &Node, card: &Card<'_>) -> Fuse {
    Fuse {
        mark: look::name(row, "mark"),
        rating: look::quantity(row, "rating"),
        speed: look::word(row, "speed", &words::SPEED),
        size: look::text(row, "size"),
        guards: look::text(row, "guards"),
        place: look::text(row, "where"),
        cite: cite::of(row, &card.sources),
        evidence: Evidence::default(),
    }
}

fn link(row: &Node, card: &Card<'_>) -> Link {
    Link {
        mark: look::name(row, "mark"),
        does: look::name(row, "does"),
        cite: cite::of(row, &card.sources),
        evidence: Evidence::default(),
    }
}

fn keypad(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Keypad {
    Keypad {
        positive: card.terminals.key(sheet, block, "positive"),
        negative: card.terminals.key(sheet, block, "negative"),
        data: card.terminals.list_at(sheet, block, "data"),
        bus: look::text(block, "bus"),
        cite: cite::of(block, &card.sources),
    }
}
