//! Makes the index of a whole library: in parts, side by side, and in each of them few cards at a time, so that no more
//! than these are in memory at once. How it is divided depends on the library alone.

use super::{Finder, cards, faults_of, refused, renewed};
use crate::check;
use crate::cli::open::spread;
use crate::cli::report::Report;
use crate::model::Library;
use crate::search::{Index, Lexicon, Part, Writer};
use crate::source::Files;
use crate::store::{Hash, Kept, Manifest, Place, hash};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// How many parts there are where a part is not too small: a question has to look into each of them.
const PARTS: usize = 2;
/// A library of fewer cards is one part.
const FEW: usize = 500;
/// So many cards are in memory at once, for each part.
const AT_ONCE: usize = 64;

/// What was found out while some cards were read.
#[derive(Default)]
struct Read {
    faults: BTreeMap<String, usize>,
    refused: Vec<String>,
    hashes: BTreeMap<String, Option<Hash>>,
    cards: usize,
    rings: Vec<Vec<String>>,
}

impl Finder {
    /// Reads the whole library and makes its index.
    pub(super) fn anew(root: Option<PathBuf>, place: Option<Place>) -> Result<Self, Report> {
        let mut manifest = Manifest::default();
        let (read, parts) = match &root {
            None => whole(&Files::embedded())?,
            Some(root) => {
                // Looked at before the files are read: what is written in between is seen the next time.
                manifest = renewed(root, &manifest)?.manifest;
                in_parts(root, &manifest)?
            }
        };
        manifest.set_hashes(|path| read.hashes.get(path).copied());
        let index = Index::of(parts, Lexicon::new(read.cards, read.rings.clone()))?;
        let Read { faults, refused, cards, rings, .. } = read;
        let kept = Kept { cards, rings, faults, refused, ..Kept::default() };
        let mut finder = Self { root, place, index, kept, manifest };
        finder.keep()?;
        Ok(finder)
    }
}

/// The index of a library in a folder. Its cards can be judged one by one: none takes its id from another.
fn in_parts(root: &Path, manifest: &Manifest) -> Result<(Read, Vec<Part>), Report> {
    let (ids, others) = cards::divided(manifest);
    let parts = if ids.len() < FEW { 1 } else { PARTS };
    let ids: Vec<&String> = ids.iter().collect();
    let divided: Vec<&[&String]> = ids.chunks(ids.len().div_ceil(parts).max(1)).collect();
    // The rings of words are among the others, and every part is made with them.
    let (mut all, _) = look(&Files::some(root, others));
    let rings = all.rings.clone();
    let made: Vec<Result<(Read, Part), Report>> =
        divided.into_par_iter().map(|ids| part(root, manifest, ids, &rings)).collect();
    let mut parts = Vec::new();
    for made in made {
        let (read, part) = made?;
        all.extend(read);
        parts.push(part);
    }
    if parts.is_empty() {
        parts.push(Writer::new(&rings)?.finish()?);
    }
    Ok((all, parts))
}

/// The facts of some cards.
fn part(root: &Path, manifest: &Manifest, ids: &[&String], rings: &[Vec<String>]) -> Result<(Read, Part), Report> {
    let mut read = Read::default();
    let mut writer = Writer::new(rings)?;
    for ids in ids.chunks(AT_ONCE) {
        let some: BTreeSet<String> = ids.iter().map(ToString::to_string).collect();
        let (more, library) = look(&Files::some(root, cards::files(manifest, &some)));
        writer.add(&library)?;
        read.extend(more);
    }
    Ok((read, writer.finish()?))
}

/// The facts of all cards, read at once.
fn whole(files: &Files) -> Result<(Read, Vec<Part>), Report> {
    let (read, library) = look(files);
    let mut writer = Writer::new(&read.rings)?;
    writer.add(&library)?;
    Ok((read, vec![writer.finish()?]))
}

/// Reads some files.
fn look(files: &Files) -> (Read, Library) {
    let checked = check::library_by(files, &spread);
    let library = checked.value;
    let lexicon = Lexicon::of(&library);
    let read = Read {
        faults: faults_of(files, &checked.faults),
        refused: refused(files).collect(),
        hashes: hashes(files),
        cards: lexicon.cards,
        rings: lexicon.rings,
    };
    (read, library)
}

/// What the files were.
fn hashes(files: &Files) -> BTreeMap<String, Option<Hash>> {
    let hash = |bytes: &Result<Vec<u8>, _>| bytes.as_ref().ok().map(|bytes| hash(bytes));
    files.files.iter().map(|(path, bytes)| (path.clone(), hash(bytes))).collect()
}

impl Read {
    fn extend(&mut self, other: Self) {
        self.faults.extend(other.faults);
        self.refused.extend(other.refused);
        self.hashes.extend(other.hashes);
        self.cards += other.cards;
        self.rings.extend(other.rings);
    }
}
