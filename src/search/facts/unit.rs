//! What any unit with screws has: terminals, fuses, links, markings, cautions, notes.

use super::{Owner, card, sentences};
use crate::model::{Card, Fuse, Library, Panel, Polarity, Terminal, Unit};
use crate::search::entry::{Entry, Kind};
use crate::search::{danger, known_at, token};

/// Every fact of a unit that does not depend on which kind of unit it is.
pub(super) fn entries(library: &Library, card: Card<'_>, unit: &Unit) -> Vec<Entry> {
    with_roles(library, card, unit, &|_| Vec::new())
}

/// The same, with what each mark is used for added to its terminal.
pub(super) fn with_roles(
    library: &Library,
    card: Card<'_>,
    unit: &Unit,
    roles: &dyn Fn(&str) -> Vec<String>,
) -> Vec<Entry> {
    let owner = Owner::new(card);
    let panel = if let Card::Panel(panel) = card { Some(panel) } else { None };
    let mut entries = vec![card::entry(&owner, card, unit)];
    entries.extend(unit.terminals.iter().map(|t| terminal(&owner, unit, panel, t, roles(&t.mark))));
    entries.extend(unit.fuses.iter().map(|f| fuse(&owner, unit, f)));
    for link in &unit.links {
        let mut entry = owner.entry(Kind::Link, Some(&link.mark), link.does.clone());
        entry.hit.known = Some(known_at(&link.cite, link.evidence));
        entry.extra = "jumper switch".to_string();
        entries.push(entry);
    }
    for marking in &unit.markings {
        let mut entry = owner.entry(Kind::Marking, None, format!("{marking}, printed on {}.", owner.name));
        entry.hit.title = format!("{marking}, marking of {}", owner.name);
        entry.names = vec![marking.clone()];
        entries.push(entry);
    }
    entries.extend(owner.cautions(&unit.cautions));
    entries.extend(owner.notes(library));
    entries
}

fn terminal(owner: &Owner, unit: &Unit, panel: Option<&Panel>, terminal: &Terminal, roles: Vec<String>) -> Entry {
    let does = terminal.does.clone().unwrap_or_else(|| "What it does is not known".to_string());
    let polarity = terminal.polarity.map(|p| match p {
        Polarity::Positive => "Positive".to_string(),
        Polarity::Negative => "Negative".to_string(),
    });
    let limit = terminal.limit.map(|limit| format!("Gives at most {limit}"));
    let parts = [Some(does), polarity, limit].into_iter().flatten().chain(roles).chain(terminal.notes.clone());
    let mut entry = owner.entry(Kind::Terminal, Some(&terminal.mark), sentences(parts));
    entry.hit.danger = dangers(unit, panel, terminal);
    entry.hit.volts = Some(terminal.volts.map_or_else(|| "not known".to_string(), |v| v.to_string()));
    entry.hit.fuse = terminal.fuse.as_ref().map(|mark| named_fuse(unit, mark));
    entry.hit.known = Some(known_at(&terminal.cite, terminal.evidence));
    entry.related.extend(terminal.fuse.clone());
    entry.extra = terminal.group.map(|g| g.word().to_string()).unwrap_or_default();
    entry
}

/// The dangers of a terminal, and the card's own cautions that name it.
fn dangers(unit: &Unit, panel: Option<&Panel>, terminal: &Terminal) -> Option<String> {
    let mut dangers: Vec<String> = Vec::new();
    dangers.extend(danger::of_terminal(unit, panel, terminal).into_iter().map(str::to_string));
    dangers.extend(unit.cautions.iter().filter(|caution| names_mark(caution, &terminal.mark)).cloned());
    (!dangers.is_empty()).then(|| dangers.join("; "))
}

/// Whether a text names a mark, or the mark without its sign. A lone letter is an English word as often as a mark.
fn names_mark(text: &str, mark: &str) -> bool {
    let folded = token::fold(mark);
    let base = token::split_sign(&folded).map_or("", |(base, _)| base);
    let is_it = |word: &str| word.chars().count() > 1 && (word == folded || word == base);
    token::words(text).iter().any(|w| w.like_mark && is_it(&w.whole))
}

/// A fuse with its rating, for a line of a hit.
pub(super) fn named_fuse(unit: &Unit, mark: &str) -> String {
    match unit.fuse(mark) {
        Some(fuse) => format!("{mark} ({})", rating(fuse)),
        None => mark.to_string(),
    }
}

/// Rating, speed and size of a fuse; what is not known is said.
fn rating(fuse: &Fuse) -> String {
    let rating = fuse.rating.map_or_else(|| "rating not known".to_string(), |r| r.to_string());
    let speed = fuse.speed.map(|s| s.word().to_string());
    [Some(rating), speed, fuse.size.clone()].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

fn fuse(owner: &Owner, unit: &Unit, fuse: &Fuse) -> Entry {
    let guarded: Vec<&Terminal> =
        unit.terminals.iter().filter(|t| t.fuse.as_deref() == Some(fuse.mark.as_str())).collect();
    let marks: Vec<String> = guarded.iter().map(|t| t.mark.clone()).collect();
    let guards =
        fuse.guards.as_ref().map_or_else(|| "What it guards is not known".to_string(), |g| format!("Guards {g}"));
    let place = fuse.place.as_ref().map(|p| format!("Where: {p}"));
    let terminals = (!marks.is_empty()).then(|| format!("Terminals {}", marks.join(", ")));
    let parts = [Some(rating(fuse)), Some(guards), terminals, place].into_iter().flatten();
    let mut entry = owner.entry(Kind::Fuse, Some(&fuse.mark), sentences(parts));
    let dangers = danger::of_fuse(unit, &fuse.mark);
    entry.hit.danger = (!dangers.is_empty()).then(|| dangers.join("; "));
    entry.hit.fuse = Some(named_fuse(unit, &fuse.mark));
    entry.hit.known = Some(known_at(&fuse.cite, fuse.evidence));
    entry.related = marks;
    entry.extra = guarded.iter().filter_map(|t| t.does.as_deref()).collect::<Vec<_>>().join(" ");
    entry
}
