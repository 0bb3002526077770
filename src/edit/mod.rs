//! One fact of a card changed in its file, and not a byte of anything else: comments, order, spacing, line ends and
//! the byte order mark stay.
//!
//! A change is made where the reader says that a value stands, and proved afterwards: the new text is read again and
//! must be the old tree but for what was asked. What can't be proved is refused. What a value must look like is for
//! `check` to say.

mod as_left;
mod cite;
mod difference;
mod ends;
mod find;
mod list;
mod place;
mod proof;
mod put;
mod quote;
mod value;

pub use as_left::as_left;
pub use difference::{Changed, changed, lines};
pub(crate) use quote::{Style, scalar, usual};

use crate::check::{Block, block_of};
use crate::diagnostics::Fault;
use crate::source::{self, Node};
use place::Place;
use value::Wanted;

/// What is to be set on a card.
#[derive(Debug, Clone, Copy)]
pub struct Wish<'a> {
    /// The folder of the library that the card lies in: `panels`.
    pub folder: &'a str,
    /// Whose fact it is: a mark, or a place on the card such as `siren` or `zones.1`.
    pub of: &'a str,
    /// The keys, each with its value as it is typed.
    pub values: &'a [(String, String)],
    /// Where it is from, as `cite` writes it.
    pub cite: Option<&'a str>,
}

/// Why nothing is changed.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// The file can't be read as a card.
    Fault(Box<Fault>),
    /// What is wrong with the wish, and what to write instead.
    Wish(String, String),
}

/// A card's text with a wish fulfilled.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Edited {
    /// The whole text.
    pub text: String,
    /// The place on the card in full: `terminals.AUX+`.
    pub place: String,
    /// Whether a value that was there has become another one.
    pub corrected: bool,
    /// The cites that were there and stay.
    pub cites: Vec<String>,
    /// Where there was no cite before: the other keys of the place, for which the new one now speaks as well.
    pub vouched: Vec<String>,
}

/// What is refused, and what to write instead.
fn refused<T>(message: impl Into<String>, help: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal::Wish(message.into(), help.into()))
}

/// The text of a card with the wish fulfilled. `file` names it in faults.
///
/// # Errors
/// When the text is not YAML, the card has no such fact, the value is not written as its key wants it, or the
/// change can't be made without touching something else.
pub fn set(file: &str, text: &str, wish: &Wish<'_>) -> Result<Edited, Refusal> {
    let Some(table) = block_of(wish.folder) else { return refused("this is no card", "name a card") };
    let (mark, body) = match text.strip_prefix('\u{feff}') {
        Some(body) => ("\u{feff}", body),
        None => ("", text),
    };
    let root = source::read(file, body).map_err(Refusal::Fault)?;
    let place = find::place(&root, table, wish.of)?;
    let mut card = Card { file, table, body: body.to_owned(), root };
    let mut edited = Edited { place: place.name.clone(), ..Edited::default() };
    for (key, typed) in wish.values {
        edited.corrected |= card.set(&place, key, typed)?;
    }
    if let Some(cite) = wish.cite {
        (edited.cites, edited.vouched) = card.cite(&place, cite, wish.values)?;
    }
    edited.text = format!("{mark}{}", card.body);
    Ok(edited)
}

/// Whether what the wish is about must say where it is from. A source can't; what is said of a card as a whole, and
/// of a generic device or cable that has no sources, need not.
///
/// # Errors
/// As [`set`].
pub fn wants_cite(file: &str, text: &str, folder: &str, of: &str) -> Result<bool, Refusal> {
    let Some(table) = block_of(folder) else { return Ok(false) };
    let root = source::read(file, text).map_err(Refusal::Fault)?;
    let place = find::place(&root, table, of)?;
    let cited = table.key("terminals").is_some() || root.get("sources").is_some();
    Ok(cited && !place.path.is_empty() && place.citing().is_some())
}

/// A card under change.
struct Card<'f> {
    file: &'f str,
    table: &'static Block,
    body: String,
    /// What the text says.
    root: Node,
}

impl Card<'_> {
    /// Sets one key. Gives whether another value was there.
    fn set(&mut self, place: &Place, key: &str, typed: &str) -> Result<bool, Refusal> {
        let known = find::key(&self.root, self.table, place, key)?;
        let wanted = value::wanted(known, typed)?;
        let before = place::at(&self.root, &place.path).and_then(|node| node.get(key));
        let corrected = before.is_some_and(|node| !proof::is(self.file, node, &wanted));
        self.put(place, known.name, &wanted)?;
        Ok(corrected)
    }

    fn put(&mut self, place: &Place, key: &str, wanted: &Wanted) -> Result<(), Refusal> {
        if let Some((body, root)) = put::put(self.file, &self.body, &self.root, place, key, wanted)? {
            (self.body, self.root) = (body, root);
        }
        Ok(())
    }

    /// Adds a cite to a place whose keys `set` are set. Gives the ones that were there and, when there was none,
    /// the place's other keys.
    fn cite(
        &mut self,
        place: &Place,
        cite: &str,
        set: &[(String, String)],
    ) -> Result<(Vec<String>, Vec<String>), Refusal> {
        let Some(citing) = place.citing() else {
            return refused("a source takes no cite: it is what others cite", "leave `--cite` out");
        };
        cite::known(&self.root, cite)?;
        let (before, wanted) = cite::added(&self.root, &citing, cite);
        let others = cite::others(&self.root, &citing, place, set);
        self.put(&citing, "cite", &wanted)?;
        Ok((before, others))
    }
}
