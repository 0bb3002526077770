//! Which words of a fact go where: what any index of the facts is made of.

use super::entry::{Entry, Kind};
use super::mark::{self, Key};
use super::side::Side;
use super::text::{first_form, name_key, pieces};
use std::borrow::Cow;

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

/// The texts of a fact, each with its place. What stands at [`Place::Does`], `Told`, `Extra`, `Context` and `Spelled` is
/// still to be cut into words.
pub(super) fn texts(entry: &Entry) -> Vec<(Place, Cow<'_, str>)> {
    let mut out = Vec::new();
    marks(&mut out, entry);
    out.extend(entry.names.iter().map(|name| (Place::Name, name_key(name).into())));
    out.extend(entry.of.iter().map(|name| (Place::Of, name.into())));
    let text = entry.searched.as_ref().unwrap_or(&entry.hit.text);
    let head = first_form(text).filter(|_| matches!(entry.hit.kind, Kind::Terminal | Kind::Fuse));
    out.extend(head.map(|head| (Place::Head, head.into())));
    let spelled = [text, &entry.extra].into_iter().chain(&entry.hit.mark).chain(&entry.names);
    // What a card is called is said once of each word, on the card itself.
    let called = (entry.hit.kind == Kind::Card).then_some(&entry.context);
    out.extend(spelled.chain(called).filter(|text| !text.is_empty()).map(|text| (Place::Spelled, text.into())));
    let running = [(place(entry), text), (Place::Extra, &entry.extra), (Place::Context, &entry.context)];
    out.extend(running.into_iter().filter(|(_, text)| !text.is_empty()).map(|(place, text)| (place, text.into())));
    out
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

fn marks(out: &mut Vec<(Place, Cow<'_, str>)>, entry: &Entry) {
    if let Some(shown) = &entry.hit.mark {
        let key = mark::key(shown);
        let side = entry.hit.side.and_then(Side::itself);
        out.push((Place::Printed, mark::printed(shown).into()));
        out.push((Place::Mark, key.whole().into()));
        out.extend(mark::bases(&key, side).into_iter().map(|base| (Place::Base, base.into())));
    }
    for Key { base, sign } in entry.related.iter().map(|related| mark::key(related)) {
        let whole = sign.is_some().then(|| Key { base: base.clone(), sign }.whole());
        out.push((Place::Related, base.into()));
        out.extend(whole.map(|whole| (Place::Related, whole.into())));
    }
}

/// The words of a fact.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Terms {
    /// Each by itself.
    pub single: Vec<(Place, String)>,
    /// Running texts: the forms of each of their words, in order.
    pub running: Vec<(Place, Vec<Vec<String>>)>,
}

/// The words of a fact, cut.
pub(super) fn of(entry: &Entry) -> Terms {
    let mut terms = Terms::default();
    for (place, text) in texts(entry) {
        match place {
            Place::Spelled => {
                let words = pieces(&text).into_iter().map(|piece| piece.word);
                let words = words.filter(|word| word.chars().all(char::is_alphabetic));
                terms.single.extend(words.map(|word| (place, word)));
            }
            Place::Does | Place::Told | Place::Extra | Place::Context => {
                terms.running.push((place, pieces(&text).into_iter().map(|piece| piece.forms).collect()));
            }
            _ => terms.single.push((place, text.into_owned())),
        }
    }
    terms
}
