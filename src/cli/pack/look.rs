//! What must be built: a pack that was made of the same things, and lies there as it was written, need not be.

use super::super::cache;
use super::super::ordinary;
use super::Run;
use super::folder::Open;
use super::surveys::{self, Task};
use crate::store::{Hash, PackSeen, Packs, Root, Seen, Stamps, content, hash};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

/// What a file that was named is.
#[derive(Debug)]
pub(super) enum Looked {
    /// A card, which makes no pack.
    Card,
    /// A survey whose pack is as it should be.
    Same {
        /// Its id.
        id: String,
        /// What the survey and the pack were this time, where that must be kept.
        seen: Option<(Seen, Seen)>,
    },
    /// A survey whose pack must be built.
    Open {
        /// The id that it gives itself, where that can be told.
        id: Option<String>,
        /// The id that it gave itself when it was last built.
        before: Option<String>,
    },
}

impl Looked {
    /// The survey's id.
    pub(super) fn id(&self) -> Option<&str> {
        match self {
            Self::Card => None,
            Self::Same { id, .. } => Some(id),
            Self::Open { id, .. } => id.as_deref(),
        }
    }
}

/// What is needed to look at surveys.
#[derive(Debug)]
pub(super) struct Before<'r> {
    run: &'r Run<'r>,
    packs: &'r Packs,
    /// The packs by the places of their surveys.
    places: BTreeMap<&'r str, &'r str>,
    /// What the cards are now.
    cards: Vec<OnceLock<Option<Hash>>>,
    /// The folder we are in, from which absolute paths are looked up.
    here: Option<Root>,
}

impl<'r> Before<'r> {
    pub(super) fn new(run: &'r Run<'r>, packs: &'r Packs) -> Self {
        let places = packs.packs.iter().filter(|(_, pack)| !pack.survey.is_empty());
        Self {
            run,
            packs,
            places: places.map(|(id, pack)| (pack.survey.as_str(), id.as_str())).collect(),
            cards: packs.cards.iter().map(|_| OnceLock::new()).collect(),
            here: Root::open(Path::new(".")).ok(),
        }
    }

    /// Looks at a survey.
    pub(super) fn look(&self, task: &Task) -> Looked {
        let id = match task.place() {
            "" => task.stem(),
            place => self.places.get(place).copied().unwrap_or_default(),
        };
        let known = self.packs.packs.get(id).filter(|pack| pack.survey == task.place());
        let now = cache::now();
        let stamps = self.here.as_ref().filter(|_| !task.place().is_empty());
        let stamps = stamps.map(|here| here.stamps([task.place()], now));
        let is_as = |pack: &&PackSeen| stamps.is_some_and(|stamps| pack.source.is_as(&stamps));
        let (source, was_read) = if let Some(pack) = known.filter(is_as) {
            (pack.source, None)
        } else {
            let read = task.read();
            if task.folder.is_some() && surveys::is_card(&read) {
                return Looked::Card;
            }
            let content = read.bytes.as_ref().map(|bytes| hash(bytes)).unwrap_or_default();
            (source_seen(stamps, content), Some(read))
        };
        if let Some(pack) = known.filter(|pack| self.is_made_of(pack, task, source.content))
            && let Some(written) = self.run.folder.if_open().and_then(|open| lies_there(open, self.packs, id, pack))
        {
            let is_new = source != pack.source || written != pack.written;
            return Looked::Same { id: id.to_string(), seen: is_new.then_some((source, written)) };
        }
        let before = known.map(|_| id.to_string());
        // A survey that was not read is as it was.
        let id = was_read.map_or_else(|| before.clone(), |read| surveys::id_of(&read));
        Looked::Open { id, before }
    }

    /// Whether a pack was made of what there is now.
    fn is_made_of(&self, pack: &PackSeen, task: &Task, source: Hash) -> bool {
        if self.run.order.force {
            return false;
        }
        let Some(cards) = &pack.cards else { return false };
        let hashes: Option<Vec<Hash>> = cards.iter().map(|at| self.card(*at, task.library)).collect();
        hashes.is_some_and(|hashes| pack.inputs == inputs(&self.run.stands_for, &source, &hashes))
    }

    /// What a card is now, when it lies in the library that the survey is read against.
    fn card(&self, at: u32, library: usize) -> Option<Hash> {
        let place = usize::try_from(at).ok()?;
        let card = self.packs.cards.get(place)?;
        if self.run.libraries.get(library) != Some(&card.library) {
            return None;
        }
        let look = || Some(self.run.shelves.get(library)?.looked(&card.key).seen.content);
        *self.cards.get(place)?.get_or_init(look)
    }
}

/// What a survey is; one that has no stamps is read each time.
pub(super) fn source_seen(stamps: Option<Stamps>, content: Hash) -> Seen {
    stamps.map_or(Seen { fresh: true, content, ..Seen::default() }, |stamps| Seen::new(stamps, content))
}

/// What stands for all that goes into a pack: how packs are made, the survey, and its cards in the order of their keys.
pub(super) fn inputs(order: &Hash, survey: &Hash, cards: &[Hash]) -> Hash {
    let all = [order, survey].into_iter().chain(cards);
    hash(&all.flatten().copied().collect::<Vec<u8>>())
}

/// What lies in a pack's folder, when that is what was written.
pub(super) fn lies_there(open: &Open, packs: &Packs, id: &str, pack: &PackSeen) -> Option<Seen> {
    let names: Vec<&str> = packs.words.at(&pack.files).collect();
    files_lie_there(open, id, &names, &pack.written)
}

/// What lies in the folder `id`, when that is what was written under these names.
pub(super) fn files_lie_there(open: &Open, id: &str, names: &[&str], written: &Seen) -> Option<Seen> {
    let paths: Vec<String> = names.iter().map(|name| path_in(id, name)).collect();
    let stamps = open.root.stamps(paths.iter().map(String::as_str), cache::now());
    if written.is_as(&stamps) {
        return Some(*written);
    }
    let place = open.out.place();
    let read: Option<Vec<Vec<u8>>> = paths.iter().map(|path| ordinary::whole(&place.join(path)).ok()).collect();
    let found = content(names.iter().copied().zip(read.as_ref()?.iter().map(Vec::as_slice)));
    (found == written.content).then(|| Seen::dated_back(stamps, found))
}

/// A file of a pack, or of the folder of packs when it is of none.
pub(super) fn path_in(id: &str, name: &str) -> String {
    if id.is_empty() { name.to_string() } else { format!("{id}/{name}") }
}
