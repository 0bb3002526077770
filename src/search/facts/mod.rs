//! Every fact of a library that a search can find, in the order in which equal hits are listed: by card, by kind,
//! in card order.

mod board;
mod card;
mod device;
mod fuse;
mod names;
mod panel;
mod side;
mod unit;

use super::entry::{Entry, Hit, Kind};
use super::mark;
use super::side::Side;
use crate::model::{Card, CardId, How, Library, Note};

/// All facts of a library, one card after the other: of ten thousand cards they would fill much memory at once. Cable
/// types hold none that anyone asks at a panel, so they are left out.
pub(super) fn of(library: &Library) -> impl Iterator<Item = Entry> {
    let mut ids: Vec<&CardId> = library.panels.keys().chain(library.boards.keys()).collect();
    ids.extend(library.supplies.keys().chain(library.devices.keys()));
    ids.sort_unstable();
    ids.into_iter().flat_map(|id| of_card(library, id))
}

/// All facts of one card.
fn of_card(library: &Library, id: &str) -> Vec<Entry> {
    let mut entries = match library.card(id) {
        Some(Card::Panel(panel)) => panel::entries(library, panel),
        Some(Card::Board(board)) => board::entries(library, board),
        Some(card @ Card::Supply(supply)) => unit::entries(library, card, &supply.unit),
        Some(Card::Device(device)) => device::entries(library, device),
        Some(Card::Cable(_)) | None => Vec::new(),
    };
    // The sort is stable, so within a kind the card's own order stays.
    entries.sort_by_key(|entry| entry.hit.kind);
    entries
}

/// The card that facts belong to.
#[derive(Debug, Clone)]
struct Owner<'a> {
    card: Card<'a>,
    id: CardId,
    name: String,
    context: String,
    of: Vec<String>,
}

impl<'a> Owner<'a> {
    fn new(card: Card<'a>) -> Self {
        let (id, name) = (card::id(card).clone(), card::name(card));
        Self { card, id, name, context: names::context(card), of: names::of(card) }
    }

    /// A fact of this card with nothing but its kind, mark and text.
    fn entry(&self, kind: Kind, mark: Option<&str>, text: String) -> Entry {
        let title = match mark {
            Some(mark) => format!("{mark}, {} of {}", kind.word(), self.name),
            None => format!("{} of {}", kind.word(), self.name),
        };
        let hit = Hit {
            card: self.id.clone(),
            card_name: self.name.clone(),
            kind,
            mark: mark.map(str::to_string),
            title,
            text,
            danger: None,
            volts: None,
            fuse: None,
            check: None,
            known: None,
            side: mark.and_then(|mark| mark::key(mark).sign).map(Side::Is),
            is_opposite: false,
            score: 0.0,
        };
        Entry {
            hit,
            searched: None,
            context: self.context.clone(),
            names: Vec::new(),
            of: self.of.clone(),
            related: Vec::new(),
            extra: String::new(),
        }
    }

    fn cautions(&self, cautions: &[String]) -> Vec<Entry> {
        cautions.iter().map(|text| self.entry(Kind::Caution, None, text.clone())).collect()
    }

    /// The notes of its card; one about a terminal is on that terminal's side.
    fn notes(&self, library: &Library) -> Vec<Entry> {
        library.notes_of(&self.id).iter().map(|note| self.note(note)).collect()
    }

    fn note(&self, note: &Note) -> Entry {
        let mut entry = self.entry(Kind::Note, note.about.as_deref(), note.words());
        let how = note.how.map_or("how it is known was not written", How::word);
        let date = note.date.map(|date| format!(" of {date}")).unwrap_or_default();
        let by = note.by.as_ref().map(|by| format!(", by {by}")).unwrap_or_default();
        let job = note.job.as_ref().map(|job| format!(", job {job}")).unwrap_or_default();
        entry.hit.known = Some(format!("{how} (note{date}{by}{job})"));
        entry.hit.side = note.about.as_deref().and_then(|mark| side::of(self.card, mark));
        entry
    }
}

/// Sentences, each closed by a full stop, in one line.
fn sentences(parts: impl IntoIterator<Item = String>) -> String {
    let closed = |part: String| {
        let part = part.trim().to_string();
        if part.ends_with(['.', '!', '?']) { part } else { format!("{part}.") }
    };
    parts.into_iter().filter(|p| !p.trim().is_empty()).map(closed).collect::<Vec<_>>().join(" ")
}
