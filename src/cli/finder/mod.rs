//! Opens the index that questions are put to: the one that is kept, brought up to date; else one made anew; and where
//! nothing can be kept, one in memory. The answers are the same.
//!
//! What changed in a library is known from the stamps of its files (`store`). Of changed cards alone the facts are
//! taken out of the index and put in anew. That is done only where it gives what making it anew would: no card
//! gives itself the id of another, and the rings of words are as they were.

mod cards;
mod keep;
mod make;

use super::cache;
use super::open::{cannot_open, open_root};
use super::report::{Outcome, Report};
use crate::check;
use crate::diagnostics::Fault;
use crate::model::Library;
use crate::search::{Answer, Index, IsWhole, Lexicon, Question, SearchFault};
use crate::source::{self, Files};
use crate::store::{Blocks, Kept, Manifest, Name, Place, Renewed, hash};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::thread;

/// How often a state is read again that was replaced while it was read, and hits that changed while they were found.
const TRIES: usize = 3;
/// The cards of so many hits are looked at again.
const LOOKED_AT: usize = 20;

/// How a question is answered.
#[derive(Debug, Clone, Copy)]
pub(super) struct Keeping {
    /// Whether anything may be kept.
    pub(super) cache: bool,
    /// Whether the whole library is looked at for changes.
    pub(super) fresh: bool,
}

/// An index with what a command must know of its library.
#[derive(Debug)]
pub(super) struct Finder {
    root: Option<PathBuf>,
    place: Option<Place>,
    index: Index,
    kept: Kept,
    /// What lay in the library when the index was made.
    manifest: Manifest,
}

impl Finder {
    /// Opens the index of a library; without a folder, of the demo library in the program.
    ///
    /// # Errors
    /// When the folder can't be looked into, or there is no memory for an index.
    pub(super) fn open(root: Option<PathBuf>, keeping: Keeping) -> Result<Self, Report> {
        open_root(root.as_deref())?;
        let place = cache::place(root.as_deref()).filter(|_| keeping.cache);
        for _ in 0..TRIES {
            let Some(kept) = place.as_ref().and_then(|place| place.read(Name::State)) else { break };
            let fresh = keeping.fresh;
            if let Some(finder) = Self::from_kept(root.as_ref(), place.as_ref(), kept, fresh) {
                return finder;
            }
        }
        Self::anew(root, place)
    }

    /// From what was kept; `None` when its files are damaged or were replaced just now.
    fn from_kept(
        root: Option<&PathBuf>,
        place: Option<&Place>,
        (kept, manifest): (Kept, Manifest),
        fresh: bool,
    ) -> Option<Result<Self, Report>> {
        let folder = place?.files();
        let (index, renewed) = thread::scope(|scope| {
            let looked = root.filter(|_| fresh);
            let looked = looked.map(|root| scope.spawn(|| renewed(root, &manifest)));
            let lexicon = Lexicon::new(kept.cards, kept.rings.clone());
            let look = |blocks: Blocks| -> IsWhole { Box::new(blocks.look()) };
            let looks = kept.needed.iter().map(|(name, blocks)| (name.clone(), look(blocks.clone()))).collect();
            let index = Index::open(&folder, looks, kept.heads.clone(), lexicon).ok();
            (index, looked.map(thread::ScopedJoinHandle::join))
        });
        let mut finder = Self { root: root.cloned(), place: place.cloned(), index: index?, kept, manifest };
        match renewed {
            None => Some(Ok(finder)),
            Some(Ok(Ok(renewed))) => Some(finder.renew(renewed).map(|()| finder)),
            Some(Ok(Err(report))) => Some(Err(report)),
            Some(Err(_)) => None,
        }
    }

    /// Brings the index up to date with a library that was looked at again.
    fn renew(&mut self, renewed: Renewed) -> Result<(), Report> {
        if renewed.same {
            return Ok(());
        }
        if renewed.changed.is_empty() {
            self.manifest = renewed.manifest;
            return self.keep();
        }
        // An index that turns out to be damaged is made anew as well.
        if self.patch(renewed).unwrap_or(false) {
            return self.keep();
        }
        *self = Self::anew(self.root.take(), self.place.take())?;
        Ok(())
    }

    /// Changes the cards that changed, where that gives what making the index anew would.
    fn patch(&mut self, renewed: Renewed) -> Result<bool, Report> {
        let Some(root) = &self.root else { return Ok(false) };
        let Some(mut cards) = cards::of_paths(&renewed.changed) else { return Ok(false) };
        cards.extend(self.kept.patched.iter().cloned());
        if cards.len() > cards::most(self.kept.cards) {
            return Ok(false);
        }
        let mut manifest = renewed.manifest;
        let rules = renewed.changed.iter().filter(|path| path.starts_with("rules/")).cloned();
        let paths: Vec<String> = cards::files(&manifest, &cards).into_iter().chain(rules).collect();
        let files = Files::some(root, paths);
        let checked = check::library(&files);
        set_hashes(&mut manifest, &files);
        let kept = &mut self.kept;
        let is_other = |path: &String| !renewed.changed.contains(path) && !files.files.contains_key(path);
        kept.faults.retain(|path, _| is_other(path));
        kept.faults.extend(faults_of(&files, &checked.faults));
        kept.refused.retain(is_other);
        kept.refused.extend(refused(&files));
        kept.cards = cards::count(&manifest, &kept.faults);
        let lexicon = Lexicon::new(kept.cards, kept.rings.clone());
        self.index = self.index.with_cards(&cards, &checked.value, lexicon)?;
        kept.patched = cards;
        self.manifest = manifest;
        Ok(true)
    }

    /// What answers a question. The cards of the hits are read once more: what changed on them is never shown old.
    ///
    /// # Errors
    /// When the index can't be read.
    pub(super) fn answer(&mut self, question: &Question) -> Result<Answer, Report> {
        for _ in 0..TRIES {
            let answer = self.ask(|index| index.answer(question))?;
            let cards: BTreeSet<String> = answer.hits.iter().take(LOOKED_AT).map(|hit| hit.card.clone()).collect();
            let Some(root) = self.root.clone().filter(|_| self.place.is_some()) else { return Ok(answer) };
            let manifest = &mut self.manifest;
            let notes: Vec<String> = cards.iter().map(|card| format!("notes/{card}")).collect();
            let changed = manifest.differing(&root, &list(&root), &cards::files(manifest, &cards), &notes);
            if changed.is_empty() {
                return Ok(answer);
            }
            manifest.doubt(&changed);
            let renewed = renewed(&root, manifest)?;
            self.renew(renewed)?;
        }
        self.ask(|index| index.answer(question))
    }

    /// Asks the index; where that finds out that the index is damaged, one that is made anew.
    fn ask<T>(&mut self, ask: impl Fn(&Index) -> Result<T, SearchFault>) -> Result<T, Report> {
        let answer = ask(&self.index);
        if answer.is_ok() || self.place.is_none() {
            return Ok(answer?);
        }
        *self = Self::anew(self.root.take(), self.place.take())?;
        Ok(ask(&self.index)?)
    }

    /// The marks that are spelled nearly as a word of the question.
    ///
    /// # Errors
    /// When the index can't be read.
    pub(super) fn nearest_marks(&mut self, question: &Question) -> Result<Vec<String>, Report> {
        self.ask(|index| index.nearest_marks(question))
    }

    /// A library with one card in it, read from its files.
    pub(super) fn card(&self, id: &str) -> Library {
        let files = match &self.root {
            Some(root) if self.place.is_some() => {
                Files::some(root, cards::files(&self.manifest, &BTreeSet::from([id.to_string()])))
            }
            Some(root) => Files::cards_from_dir(root),
            None => Files::embedded(),
        };
        check::library(&files).value
    }

    /// The library's folder.
    pub(super) fn root(&self) -> Option<PathBuf> {
        self.root.clone()
    }

    /// How many cards can be found.
    pub(super) fn cards(&self) -> usize {
        self.kept.cards
    }

    /// Whether any fact of a card of this id can be found.
    ///
    /// # Errors
    /// When the index can't be read.
    pub(super) fn has_card(&mut self, id: &str) -> Result<bool, Report> {
        self.ask(|index| index.has_card(id))
    }

    /// Says on standard error that some cards have faults.
    pub(super) fn warn(&self, report: &mut Report) {
        super::open::warn(self.kept.faults.values().sum(), || self.outcome(), report);
    }

    /// Whether a file of the library can't be read for reasons of the machine.
    fn outcome(&self) -> Outcome {
        super::open::outcome(self.root.as_deref(), self.kept.refused.iter().map(String::as_str))
    }
}

/// A library looked at again.
fn renewed(root: &Path, manifest: &Manifest) -> Result<Renewed, Report> {
    manifest.renewed(root, &list(root), cache::now()).map_err(|error| cannot_open(root, &error))
}

/// The names in a folder of a library.
fn list(root: &Path) -> impl Fn(&str) -> (Vec<String>, Vec<String>) {
    |folder| {
        let listed = source::list(root, folder);
        (listed.files, listed.folders)
    }
}

/// The files that have faults, with how many.
fn faults_of(files: &Files, faults: &[Fault]) -> BTreeMap<String, usize> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for fault in faults {
        *counts.entry(&fault.file).or_default() += 1;
    }
    let count = |path: &String| Some((path.clone(), *counts.get(files.shown(path).as_str())?));
    if counts.is_empty() { BTreeMap::new() } else { files.files.keys().filter_map(count).collect() }
}

/// The files that could not be read.
fn refused(files: &Files) -> impl Iterator<Item = String> {
    files.files.iter().filter(|(_, bytes)| bytes.is_err()).map(|(path, _)| path.clone())
}

/// Says in the manifest what the files were that were read.
fn set_hashes(manifest: &mut Manifest, files: &Files) {
    manifest.set_hashes(|path| files.files.get(path).map(|bytes| bytes.as_ref().ok().map(|bytes| hash(bytes))));
}

impl From<SearchFault> for Report {
    fn from(fault: SearchFault) -> Self {
        Self::machine(format!("error: {fault}"))
    }
}
