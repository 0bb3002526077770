//! The words under which a fact is found, and where each stands: what any index of the facts is made of.

use super::entry::{Entry, Kind};
use super::mark::{self, Key};
use super::text::{name_key, pieces};
use std::collections::BTreeSet;

/// Where a word of a fact stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The mark as printed, but for case and spaces.
    Printed,
    /// The mark as it is compared, with its sign.
    Mark,
    /// The same without the sign.
    Base,
    /// Other marks that the fact is about, with and without their signs.
    Related,
    /// On the card itself and its markings: each of its names, whole.
    Name,
    /// On every fact: the names that keep an answer to its card.
    Of,
    /// The word that what it does begins with.
    Head,
    /// The words of what it does.
    Does,
    /// The words of notes and cautions.
    Told,
    /// Words that it is found by and that are not shown.
    Extra,
    /// The words of what its card is called.
    Context,
    /// Every word as it is spelled, for slips of the finger.
    Spelled,
}

/// The words of a fact.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Terms {
    /// Each by itself.
    pub single: Vec<(Place, String)>,
    /// Running texts: the forms of each of their words, in order.
    pub running: Vec<(Place, Vec<Vec<String>>)>,
}

/// The words of a fact.
pub(super) fn of(entry: &Entry) -> Terms {
    let mut terms = Terms::default();
    marks(&mut terms, entry);
    let text = entry.searched.as_ref().unwrap_or(&entry.hit.text);
    let single = &mut terms.single;
    single.extend(entry.names.iter().map(|name| (Place::Name, name_key(name))));
    single.extend(entry.of.iter().map(|name| (Place::Of, name.clone())));
    if matches!(entry.hit.kind, Kind::Terminal | Kind::Fuse) {
        let head = pieces(text).into_iter().next().and_then(|piece| piece.forms.into_iter().next());
        single.extend(head.map(|head| (Place::Head, head)));
    }
    let fields = [(place(entry), text), (Place::Extra, &entry.extra), (Place::Context, &entry.context)];
    let mut spelled = BTreeSet::new();
    for (place, text) in fields.into_iter().filter(|(_, text)| !text.is_empty()) {
        let pieces = pieces(text);
        spelled.extend(pieces.iter().map(|piece| piece.word.clone()));
        terms.running.push((place, pieces.into_iter().map(|piece| piece.forms).collect()));
    }
    spelled.extend(entry.hit.mark.iter().chain(&entry.names).flat_map(|text| pieces(text)).map(|p| p.word));
    let words = spelled.into_iter().filter(|word| word.chars().all(char::is_alphabetic));
    terms.single.extend(words.map(|word| (Place::Spelled, word)));
    terms
}

/// Where the words of a fact go: what is told of a card, and what a unit's card sums up, say less than what a
/// terminal does.
fn place(entry: &Entry) -> Place {
    match entry.hit.kind {
        Kind::Note | Kind::Caution => Place::Told,
        Kind::Card if entry.searched.is_some() => Place::Extra,
        _ => Place::Does,
    }
}

fn marks(terms: &mut Terms, entry: &Entry) {
    let single = &mut terms.single;
    if let Some(shown) = &entry.hit.mark {
        let key = mark::key(shown);
        single.push((Place::Printed, mark::printed(shown)));
        single.push((Place::Mark, key.whole()));
        single.extend(mark::bases(&key, entry.hit.side).into_iter().map(|base| (Place::Base, base)));
    }
    for Key { base, sign } in entry.related.iter().map(|related| mark::key(related)) {
        single.push((Place::Related, base.clone()));
        single.extend(sign.is_some().then(|| (Place::Related, Key { base, sign }.whole())));
    }
}
