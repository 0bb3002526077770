//! What any unit with screws has: terminals, fuses, links, markings, cautions, notes.

use super::{Owner, card, fuse, names, sentences, side};
use crate::model::{Card, Library, Panel, Terminal, Unit};
use crate::search::entry::{Entry, Kind};
use crate::search::mark::{self, Sign};
use crate::search::side::Side;
use crate::search::{danger, known_at};

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
    entries.extend(unit.fuses.iter().map(|f| fuse::entry(&owner, unit, panel, f)));
    for link in &unit.links {
        let mut entry = owner.entry(Kind::Link, Some(&link.mark), link.does.clone());
        entry.hit.known = Some(known_at(&link.cite, link.evidence));
        entry.extra = "jumper switch".to_string();
        entries.push(entry);
    }
    for marking in &unit.markings {
        let mut entry = owner.entry(Kind::Marking, None, format!("{marking}, printed on {}.", owner.name));
        entry.hit.title = format!("{marking}, marking of {}", owner.name);
        entry.searched = Some(marking.clone());
        entry.names = names::parts(marking);
        entries.push(entry);
    }
    entries.extend(owner.cautions(&unit.cautions));
    entries.extend(owner.notes(library));
    entries
}

fn terminal(owner: &Owner<'_>, unit: &Unit, panel: Option<&Panel>, terminal: &Terminal, roles: Vec<String>) -> Entry {
    let does = terminal.does.clone().unwrap_or_else(|| "What it does is not known".to_string());
    let side = side::of(owner.card, &terminal.mark);
    let said = does.to_lowercase();
    let polarity = side.and_then(Side::itself).map(Sign::word);
    let polarity = polarity.filter(|word| !said.contains(word)).map(capital);
    let limit = terminal.limit.map(|limit| format!("Gives at most {limit}"));
    let parts = [Some(does), polarity, limit].into_iter().flatten().chain(roles).chain(terminal.notes.clone());
    let mut entry = owner.entry(Kind::Terminal, Some(&terminal.mark), sentences(parts));
    entry.hit.danger = dangers(unit, panel, terminal);
    entry.hit.volts = Some(terminal.volts.map_or_else(|| "not known".to_string(), |v| v.to_string()));
    entry.hit.fuse = terminal.fuse.as_ref().map(|mark| fuse::named(unit, mark));
    entry.hit.known = Some(known_at(&terminal.cite, terminal.evidence));
    entry.hit.side = side;
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

/// A word at the beginning of a sentence.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Whether a text names a mark, or the mark without its sign, in capitals as it is printed. A lone letter is an English
/// word as often as a mark.
fn names_mark(text: &str, mark: &str) -> bool {
    let key = mark::key(mark);
    let is_it = |word: &str| {
        let said = mark::key(word);
        said.whole().chars().count() > 1 && said.base == key.base && (said.sign.is_none() || said.sign == key.sign)
    };
    let is_printed = |word: &str| word.chars().any(|c| c.is_uppercase() || c.is_numeric());
    text.split_whitespace().any(|word| {
        let word = word.trim_end_matches(['.', ',', ':', ';']);
        is_printed(word) && is_it(word)
    })
}
