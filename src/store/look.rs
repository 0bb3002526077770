//! Looks at a library again: what has changed since?

use super::hash::{Hash, hash};
use super::manifest::{Manifest, folder_of, joined};
use super::packed::State;
use super::stamp::{Root, Stamp, Tick};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, Read as _};
use std::path::Path;
use std::thread;

/// Files on more threads than this are not looked at sooner.
const THREADS: usize = 2;
/// A file that is larger is not read by anybody: it is larger than a library's files may be, pictures among them.
const LARGEST: u64 = 2 * 1024 * 1024;
/// Fewer names than this are looked at sooner than a thread is started.
const FEW: usize = 500;

/// A library looked at again.
#[derive(Debug, Clone, Default)]
pub struct Renewed {
    /// What lies there now.
    pub manifest: Manifest,
    /// The paths of files whose content is another, of those that came and of those that went.
    pub changed: BTreeSet<String>,
    /// Whether the old manifest is as good as the new one: no stamp differs and nothing must be looked at twice.
    pub same: bool,
}

/// What lies in a folder of the library, given its path below the library's folder: the names of its files and of the
/// folders within it, both sorted.
pub type List<'a> = dyn Fn(&str) -> (Vec<String>, Vec<String>) + 'a;

impl Manifest {
    /// Looks at the library in `root` again. Files whose stamps are as they were are not opened; folders are listed
    /// only when theirs are not. `now` is the time. The hash of a file that came is left to whoever reads it.
    ///
    /// # Errors
    /// When the library's folder can't be opened.
    pub fn renewed(&self, root: &Path, list: &List<'_>, now: Tick) -> io::Result<Renewed> {
        let open = Root::open(root)?;
        let stamps = stamps(&open, self);
        if self.is_as(&stamps) {
            return Ok(Renewed { same: true, ..Renewed::default() });
        }
        let mut look = Look::new(&open, root, list, now, self, &stamps);
        look.library();
        let entries = look.found.iter().map(|(path, state)| (path.as_str(), *state)).collect();
        Ok(Renewed { manifest: Self { entries }, changed: look.changed, same: false })
    }

    /// Whether the stamps, in the order of the manifest, are those it has, and all of them can be relied on.
    fn is_as(&self, stamps: &[Option<Stamp>]) -> bool {
        let is_same = |((_, old), now): ((&str, State), &Option<Stamp>)| !old.fresh && old.stamp == *now;
        !self.entries.is_empty() && stamps.len() == self.entries.len() && self.entries.iter().zip(stamps).all(is_same)
    }

    /// Looks at a few things whatever their stamps say: the paths of `files` whose content is another, and those of
    /// files that came to or went from the `folders`.
    #[must_use]
    pub fn differing(&self, root: &Path, list: &List<'_>, files: &[String], folders: &[String]) -> BTreeSet<String> {
        let is_other = |path: &&String| content(root, path) != self.file(path).and_then(|file| file.hash);
        let mut differing: BTreeSet<String> = files.iter().filter(is_other).cloned().collect();
        for folder in folders {
            let old: BTreeSet<String> = self.files_in(folder).map(ToString::to_string).collect();
            // Most cards have no notes: what is not there has no names in it.
            let now = if root.join(folder).exists() { list(folder).0 } else { Vec::new() };
            let now: BTreeSet<String> = now.iter().map(|name| joined(folder, name)).collect();
            differing.extend(now.symmetric_difference(&old).cloned());
        }
        differing
    }
}

/// The stamps of all that a manifest names, in its order.
fn stamps(root: &Root, manifest: &Manifest) -> Vec<Option<Stamp>> {
    let count = manifest.entries.len();
    let threads = if count < FEW { 1 } else { THREADS };
    let share = count.div_ceil(threads).max(1);
    let part = |at: usize| {
        let entries = manifest.entries.from(at * share).take(share);
        entries.map(|(path, _)| root.stamp(path)).collect::<Vec<_>>()
    };
    thread::scope(|scope| {
        let later: Vec<_> = (1..threads).map(|at| scope.spawn(move || part(at))).collect();
        let mut stamps = part(0);
        for thread in later {
            // A thread that could not end leaves too few stamps, and so everything is looked at again.
            stamps.extend(thread.join().unwrap_or_default());
        }
        stamps
    })
}

/// One look at a library that is not as it was.
struct Look<'a> {
    open: &'a Root,
    root: &'a Path,
    list: &'a List<'a>,
    now: Tick,
    old: &'a Manifest,
    /// The stamps of now, in the order of the old manifest.
    stamps: &'a [Option<Stamp>],
    /// The places in the old manifest of what was in each folder.
    within: BTreeMap<&'a str, Vec<usize>>,
    found: BTreeMap<String, State>,
    changed: BTreeSet<String>,
}

impl<'a> Look<'a> {
    fn new(
        open: &'a Root,
        root: &'a Path,
        list: &'a List<'a>,
        now: Tick,
        old: &'a Manifest,
        stamps: &'a [Option<Stamp>],
    ) -> Self {
        let mut within: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (at, (path, _)) in old.entries.iter().enumerate().filter(|(_, (path, _))| !path.is_empty()) {
            within.entry(folder_of(path)).or_default().push(at);
        }
        Self { open, root, list, now, old, stamps, within, found: BTreeMap::new(), changed: BTreeSet::new() }
    }

    /// Every folder, those that came among them, and the files that went, also with their folders.
    fn library(&mut self) {
        let mut waiting = vec![String::new()];
        while let Some(path) = waiting.pop() {
            waiting.extend(self.folder(path));
        }
        let is_here = |path: &str| self.found.get(path).is_some_and(|state| !state.is_folder);
        self.changed.extend(self.old.files().filter(|path| !is_here(path)).map(ToString::to_string));
    }

    /// A folder with its files; the paths of the folders within it.
    fn folder(&mut self, path: String) -> Vec<String> {
        let before = self.before(&path).filter(|(old, _)| old.is_folder);
        let stamp = before.map_or_else(|| self.open.stamp(&path), |(_, stamp)| stamp);
        let mut inner = Vec::new();
        if before.is_some_and(|(old, stamp)| stamp == old.stamp && !old.fresh) {
            for at in self.within.remove(path.as_str()).unwrap_or_default() {
                let Some((path, old, stamp)) = self.at(at) else { continue };
                if old.is_folder {
                    inner.push(path.to_string());
                } else {
                    self.again(path.to_string(), old, stamp);
                }
            }
        } else {
            let (files, folders) = (self.list)(&path);
            inner.extend(folders.iter().map(|name| joined(&path, name)));
            for path in files.iter().map(|name| joined(&path, name)) {
                match self.before(&path).filter(|(old, _)| !old.is_folder) {
                    Some((old, stamp)) => self.again(path, old, stamp),
                    None => self.came(path),
                }
            }
        }
        let fresh = is_fresh(stamp, self.now);
        self.found.insert(path, State { is_folder: true, stamp, fresh, hash: None });
        inner
    }

    /// What lay at a place of the old manifest, and its stamp of now.
    fn at(&self, at: usize) -> Option<(&'a str, State, Option<Stamp>)> {
        let (path, state) = self.old.entries.get(at)?;
        Some((path, state, self.stamps.get(at).copied().flatten()))
    }

    /// What lay at a path before, and its stamp of now.
    fn before(&self, path: &str) -> Option<(State, Option<Stamp>)> {
        let (_, state, stamp) = self.at(self.old.entries.place(path).ok()?)?;
        Some((state, stamp))
    }

    /// A file that came.
    fn came(&mut self, path: String) {
        let stamp = self.open.stamp(&path);
        let fresh = is_fresh(stamp, self.now);
        self.changed.insert(path.clone());
        self.found.insert(path, State { is_folder: false, stamp, fresh, hash: None });
    }

    /// A file that was there before.
    fn again(&mut self, path: String, old: State, stamp: Option<Stamp>) {
        let mut state = old;
        if stamp != old.stamp || old.fresh {
            let hash = content(self.root, &path);
            if hash != old.hash {
                self.changed.insert(path.clone());
            }
            state = State { is_folder: false, stamp, fresh: is_fresh(stamp, self.now), hash };
        }
        self.found.insert(path, state);
    }
}

fn is_fresh(stamp: Option<Stamp>, now: Tick) -> bool {
    stamp.is_some_and(|stamp| stamp.is_fresh(now))
}

/// The hash of a file's content. `None`: no ordinary file, or it can't be read.
fn content(root: &Path, path: &str) -> Option<Hash> {
    let path = root.join(path);
    // Opening a pipe would wait for a writer.
    let about = fs::metadata(&path).ok().filter(fs::Metadata::is_file)?;
    let mut bytes = Vec::with_capacity(usize::try_from(about.len().min(LARGEST)).unwrap_or(0) + 1);
    fs::File::open(path).ok()?.take(LARGEST + 1).read_to_end(&mut bytes).ok()?;
    (bytes.len() as u64 <= LARGEST).then(|| hash(&bytes))
}
