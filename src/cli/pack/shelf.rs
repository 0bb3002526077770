//! The cards of a library as packs need them: each is looked at when a survey first names it, and read when a pack that
//! must be built needs it. What is kept of an earlier run saves reading what has not changed.

use super::super::cache;
use super::super::open::{self, Opened};
use super::super::report::{Outcome, Report};
use crate::check::{self, Checked, ReadSurvey};
use crate::model::Library;
use crate::pack::PictureFile;
use crate::source::Files;
use crate::store::{CardSeen, Cards, Hash, Place, Root, Seen, card_bytes, card_of, content};
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use std::thread;

/// The folders of cards: no two cards have one id.
const FOLDERS: [&str; 5] = ["boards", "cables", "devices", "panels", "supplies"];
/// What the key of rules begins with.
const RULES: &str = "rules/";
/// So many cards are held at once.
const HELD: usize = 500;

/// The cards of one library.
#[derive(Debug)]
pub(super) struct Shelf {
    /// The library's folder, and that folder opened; `None`: it is inside the program.
    root: Option<(PathBuf, Root)>,
    /// The files inside the program.
    embedded: Files,
    /// What was kept of each card.
    before: BTreeMap<String, CardSeen>,
    /// Where cards that were read are kept, and those that are; nothing where nothing is to be kept.
    place: Option<Place>,
    kept: Cards,
    /// Cards that were read and are not kept yet.
    new: Mutex<BTreeMap<Hash, Vec<u8>>>,
    looked: Mutex<BTreeMap<String, Arc<Looked>>>,
    held: Mutex<BTreeMap<String, Arc<Library>>>,
    whole: OnceLock<Result<Opened, Report>>,
}

/// A card that was looked at.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Looked {
    /// The names of its notes and pictures.
    pub(super) notes: Vec<String>,
    /// What its files are.
    pub(super) seen: Seen,
    /// How many faults they have; `None`: not told yet.
    pub(super) faults: Option<u32>,
}

/// What a survey needs of a library.
#[derive(Debug)]
pub(super) struct Named {
    /// The faultless cards that it names, with their notes.
    pub(super) library: Library,
    /// Every card by its key, and the hash of its content.
    pub(super) cards: BTreeMap<String, Hash>,
}

impl Shelf {
    /// The cards of a library, given what was kept of it, and whether cards that were read are kept.
    ///
    /// # Errors
    /// When the library's folder can't be opened.
    pub(super) fn new(root: Option<&Path>, before: BTreeMap<String, CardSeen>, cache: bool) -> io::Result<Self> {
        let place = cache::place(root).filter(|_| cache);
        let open = |root: &Path| Root::open(root).map(|open| (root.to_path_buf(), open));
        let root = root.map(open).transpose()?;
        let embedded = if root.is_none() { Files::embedded() } else { Files::default() };
        Ok(Self {
            root,
            embedded,
            before,
            kept: place.as_ref().map(Place::cards).unwrap_or_default(),
            place,
            new: Mutex::default(),
            looked: Mutex::default(),
            held: Mutex::default(),
            whole: OnceLock::new(),
        })
    }

    /// Everything that a survey names.
    pub(super) fn named(&self, survey: &ReadSurvey<'_>) -> Named {
        let mut named = Named { library: Library::default(), cards: BTreeMap::new() };
        let rules = format!("{RULES}{}", survey.rules());
        let keys = survey.cards().into_iter().map(str::to_string).chain([rules]);
        for key in keys.filter(|key| can_be_named(key)) {
            let (looked, card) = self.card(&key);
            named.library.take_in(&card);
            named.cards.insert(key, looked.seen.content);
        }
        named
    }

    /// The library with all that is in it, for a survey that has faults: what is meant may be any other card.
    pub(super) fn whole(&self) -> Result<&Opened, Report> {
        let open = || open::open(self.root.as_ref().map(|(root, _)| root.clone()));
        // In a thread of its own: a worker that waits for others takes up another survey meanwhile, which may want the
        // same library, and would wait for itself.
        let opened = || {
            thread::scope(|scope| {
                let own = thread::Builder::new().spawn_scoped(scope, open);
                let own = own.map_err(|error| Report::machine(format!("error: can't start a thread: {error}")))?;
                own.join().unwrap_or_else(|panic| resume_unwind(panic))
            })
        };
        self.whole.get_or_init(opened).as_ref().map_err(Clone::clone)
    }

    /// What a card is now, without reading it where nothing has changed.
    pub(super) fn looked(&self, key: &str) -> Arc<Looked> {
        if let Some(looked) = lock(&self.looked).get(key) {
            return looked.clone();
        }
        let looked = Arc::new(self.look(key));
        lock(&self.looked).insert(key.to_string(), looked.clone());
        looked
    }

    /// What a card is, when it was looked at.
    pub(super) fn if_looked(&self, key: &str) -> Option<Arc<Looked>> {
        lock(&self.looked).get(key).cloned()
    }

    /// How many faults the cards have that were looked at, and whether one of them is the machine's: a file that it does
    /// not hand over. When the whole library was needed, it is the whole library's.
    pub(super) fn faults(&self) -> (usize, Outcome) {
        if let Some(Ok(opened)) = self.whole.get() {
            return (opened.faults.len(), opened.outcome());
        }
        let (mut count, mut outcome) = (0, Outcome::Done);
        for (key, looked) in &*lock(&self.looked) {
            let faults = usize::try_from(looked.faults.unwrap_or(0)).unwrap_or(usize::MAX);
            if faults > 0 {
                (count, outcome) = (count + faults, outcome.max(self.outcome(key, &looked.notes)));
            }
        }
        (count, outcome)
    }

    fn look(&self, key: &str) -> Looked {
        let Some((folder, root)) = &self.root else {
            let files = self.files(key, &[]);
            return Looked { seen: Seen { content: of_files(&files), ..Seen::default() }, ..Looked::default() };
        };
        let now = cache::now();
        let before = self.before.get(key);
        if let Some(before) = before {
            let paths = paths(key, &before.notes);
            if before.seen.is_as(&root.stamps(paths.iter().map(String::as_str), now)) {
                return Looked { notes: before.notes.clone(), seen: before.seen, faults: Some(before.faults) };
            }
        }
        let notes = notes(folder, key);
        let paths = paths(key, &notes);
        let stamps = root.stamps(paths.iter().map(String::as_str), now);
        let seen = Seen::new(stamps, of_files(&self.files(key, &notes)));
        let faults = before.filter(|before| before.seen.content == seen.content).map(|before| before.faults);
        Looked { notes, seen, faults }
    }

    /// A card with its notes as a library of its own, and what it is.
    fn card(&self, key: &str) -> (Arc<Looked>, Arc<Library>) {
        let looked = self.looked(key);
        if let Some(card) = lock(&self.held).get(key) {
            return (looked, card.clone());
        }
        let (seen, faults, card) = self.read(key, &looked);
        let looked = Arc::new(Looked { notes: looked.notes.clone(), seen, faults: Some(faults) });
        let card = Arc::new(card);
        lock(&self.looked).insert(key.to_string(), looked.clone());
        let mut held = lock(&self.held);
        if held.len() >= HELD {
            held.clear();
        }
        held.insert(key.to_string(), card.clone());
        (looked, card)
    }

    /// Reads a card: what it is, how many faults it has, and itself. Only what is without a fault is kept.
    fn read(&self, key: &str, looked: &Looked) -> (Seen, u32, Library) {
        if let Some(card) = self.kept.get(&looked.seen.content) {
            return (looked.seen, 0, card);
        }
        let new = lock(&self.new).get(&looked.seen.content).cloned();
        if let Some(card) = new.and_then(|bytes| card_of(&bytes)) {
            return (looked.seen, 0, card);
        }
        let files = self.files(key, &looked.notes);
        let Checked { value, faults } = check::library(&files);
        // What was read counts, should it have changed since it was looked at.
        let seen = Seen { content: of_files(&files), ..looked.seen };
        if let Some(bytes) = card_bytes(&value).filter(|_| faults.is_empty()) {
            lock(&self.new).insert(seen.content, bytes);
        }
        (seen, u32::try_from(faults.len()).unwrap_or(u32::MAX), value)
    }

    /// Keeps the cards that were read for the next run, if that can be done now.
    pub(super) fn keep(&self) {
        let new = std::mem::take(&mut *lock(&self.new));
        if let Some(turn) = self.place.as_ref().filter(|_| !new.is_empty()).and_then(Place::turn) {
            let _ = turn.add_cards(new);
        }
    }

    /// The files of a card and of its notes.
    fn files(&self, key: &str, notes: &[String]) -> Files {
        let Some((root, _)) = &self.root else { return of_program(&self.embedded, key) };
        Files::some(root, files_of(key, notes))
    }

    /// A picture of a card's notes, where it can be shown.
    pub(super) fn picture(&self, card: &str, name: &str) -> Option<PictureFile> {
        let path = format!("notes/{card}/{name}");
        let picture = match &self.root {
            None => self.embedded.picture(&path),
            Some((root, _)) => Files::some(root, [path.clone()]).picture(&path),
        };
        let picture = picture?.ok()?;
        Some(PictureFile { media_type: picture.kind.media_type(), bytes: picture.bytes })
    }

    /// Whether a file of one of the cards can't be read for reasons of the machine.
    fn outcome(&self, key: &str, notes: &[String]) -> Outcome {
        let files = self.files(key, notes);
        let refused = files.files.iter().filter(|(_, bytes)| bytes.is_err()).map(|(path, _)| path.as_str());
        open::outcome(self.root.as_ref().map(|(root, _)| root.as_path()), refused)
    }
}

/// The files inside the program that a card is made of.
fn of_program(embedded: &Files, key: &str) -> Files {
    let notes = format!("notes/{key}/");
    let own = files_of(key, &[]);
    let mine = embedded.files.iter().filter(|(path, _)| path.starts_with(&notes) || own.contains(path));
    let files = mine.map(|(path, bytes)| (path.clone(), bytes.clone())).collect();
    let pictures = embedded.pictures.iter().filter(|(path, _)| path.starts_with(&notes));
    let pictures = pictures.map(|(path, place)| (path.clone(), place.clone())).collect();
    Files { root: embedded.root.clone(), files, pictures }
}

/// The files that a card can lie in, then those of its notes.
fn files_of(key: &str, notes: &[String]) -> Vec<String> {
    if key.starts_with(RULES) {
        return vec![format!("{key}.yaml")];
    }
    let own = FOLDERS.iter().map(|folder| format!("{folder}/{key}.yaml"));
    own.chain(notes.iter().map(|note| format!("notes/{key}/{note}"))).collect()
}

/// All paths at which something may come or go that belongs to a card.
fn paths(key: &str, notes: &[String]) -> Vec<String> {
    let mut paths = files_of(key, notes);
    if !key.starts_with(RULES) {
        paths.push(format!("notes/{key}"));
    }
    paths
}

/// The names of a card's notes and of the pictures beside them, sorted.
fn notes(root: &Path, key: &str) -> Vec<String> {
    if key.starts_with(RULES) || fs::symlink_metadata(root.join("notes").join(key)).is_err() {
        return Vec::new();
    }
    let folder = format!("notes/{key}");
    let mut names = crate::source::list(root, &folder).files;
    names.extend(crate::source::list_pictures(root, &folder));
    names.sort_unstable();
    names
}

/// What stands for the content of a card's files. One that can't be read counts as such.
fn of_files(files: &Files) -> Hash {
    let mut parts: Vec<(&str, &[u8])> = Vec::new();
    for (path, bytes) in &files.files {
        match bytes {
            Ok(bytes) => parts.push((path, bytes)),
            Err(fault) => parts.extend([(path.as_str(), &b""[..]), ("can't be read", fault.message.as_bytes())]),
        }
    }
    let pictures: Vec<_> = files.pictures.keys().filter_map(|path| Some((path, files.picture(path)?))).collect();
    for (path, picture) in &pictures {
        match picture {
            Ok(picture) => parts.push((path, &picture.bytes)),
            Err(fault) => parts.extend([(path.as_str(), &b""[..]), ("can't be shown", fault.message.as_bytes())]),
        }
    }
    content(parts)
}

/// Whether a word that a survey writes can be the name of a file.
fn can_be_named(key: &str) -> bool {
    let name = key.strip_prefix(RULES).unwrap_or(key);
    !name.is_empty() && !name.starts_with('.') && !name.contains(['/', '\\', '\0'])
}

/// What is behind a lock. A thread that panicked left nothing half done there.
pub(super) fn lock<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
