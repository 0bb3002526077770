//! Looks at a library again: what has changed since?

use super::hash::{Hash, hash};
use super::manifest::{FolderEntry, Manifest};
use super::packed::{FileEntries, FileEntry};
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
        let manifest = look.library();
        Ok(Renewed { manifest, changed: look.changed, same: false })
    }

    /// Whether the stamps, in the order of the manifest, are those it has, and all of them can be relied on.
    fn is_as(&self, stamps: &[Option<Stamp>]) -> bool {
        let mut stamps = stamps.iter();
        let mut is_same = |stamp: &Option<Stamp>, fresh: bool| !fresh && stamps.next() == Some(stamp);
        !self.folders.is_empty()
            && self.folders.iter().all(|folder| {
                is_same(&folder.stamp, folder.fresh) && folder.files.iter().all(|file| is_same(&file.stamp, file.fresh))
            })
    }

    /// Looks at a few things whatever their stamps say: the paths of `files` whose content is another, and those of
    /// files that came to or went from the `folders`.
    #[must_use]
    pub fn differing(&self, root: &Path, list: &List<'_>, files: &[String], folders: &[String]) -> BTreeSet<String> {
        let is_other = |path: &&String| content(root, path) != self.file(path).and_then(|file| file.hash);
        let mut differing: BTreeSet<String> = files.iter().filter(is_other).cloned().collect();
        for folder in folders {
            let old = self.folder(folder).into_iter().flat_map(|folder| folder.files.iter());
            let old: BTreeSet<&str> = old.map(|file| file.name).collect();
            // Most cards have no notes: what is not there has no names in it.
            let now = if root.join(folder).exists() { list(folder).0 } else { Vec::new() };
            let now: BTreeSet<&str> = now.iter().map(String::as_str).collect();
            differing.extend(now.symmetric_difference(&old).map(|name| format!("{folder}/{name}")));
        }
        differing
    }
}

/// The stamps of every folder and file that a manifest names, in its order.
fn stamps(root: &Root, manifest: &Manifest) -> Vec<Option<Stamp>> {
    let count: usize = manifest.folders.iter().map(|folder| 1 + folder.files.len()).sum();
    let threads = if count < FEW { 1 } else { THREADS };
    let share = count.div_ceil(threads).max(1);
    thread::scope(|scope| {
        let later: Vec<_> =
            (1..threads).map(|at| scope.spawn(move || part(root, manifest, at * share, share))).collect();
        let mut stamps = part(root, manifest, 0, share);
        for thread in later {
            // A thread that could not end leaves too few stamps, and so everything is looked at again.
            stamps.extend(thread.join().unwrap_or_default());
        }
        stamps
    })
}

/// The stamps of `share` names after the first `skip`.
fn part(root: &Root, manifest: &Manifest, skip: usize, share: usize) -> Vec<Option<Stamp>> {
    let mut stamps = Vec::with_capacity(share);
    let mut at = 0;
    let mut path = String::new();
    for folder in &manifest.folders {
        let names = 1 + folder.files.len();
        let wanted = skip.saturating_sub(at).min(names)..(skip + share).saturating_sub(at).min(names);
        at += names;
        for name in wanted {
            path.clear();
            path.push_str(&folder.name);
            if let Some(file) = name.checked_sub(1).and_then(|file| folder.files.get(file)) {
                if !path.is_empty() {
                    path.push('/');
                }
                path.push_str(file.name);
            }
            stamps.push(root.stamp(&path));
        }
    }
    stamps
}

/// One look at a library that is not as it was.
struct Look<'a> {
    open: &'a Root,
    root: &'a Path,
    list: &'a List<'a>,
    now: Tick,
    old: &'a Manifest,
    /// The stamps of now, and where those of each folder of the old manifest begin.
    stamps: &'a [Option<Stamp>],
    starts: Vec<usize>,
    /// The folders that were within each folder.
    inner: BTreeMap<&'a str, Vec<&'a str>>,
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
        let mut starts = Vec::with_capacity(old.folders.len());
        let mut inner: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        let mut at = 0;
        for folder in &old.folders {
            starts.push(at);
            at += 1 + folder.files.len();
            if !folder.name.is_empty() {
                let (parent, name) = folder.name.rsplit_once('/').unwrap_or(("", &folder.name));
                inner.entry(parent).or_default().push(name);
            }
        }
        Self { open, root, list, now, old, stamps, starts, inner, changed: BTreeSet::new() }
    }

    /// Every folder, those that came among them. What lay in a folder that went has gone too.
    fn library(&mut self) -> Manifest {
        let mut folders = Vec::new();
        let mut waiting = vec![String::new()];
        while let Some(name) = waiting.pop() {
            let (entry, inner) = self.folder(name);
            waiting.extend(inner.into_iter().map(|inner| entry.path(&inner)));
            folders.push(entry);
        }
        folders.sort_by(|a, b| a.name.cmp(&b.name));
        let manifest = Manifest { folders };
        let went = self.old.folders.iter().filter(|folder| manifest.folder(&folder.name).is_none());
        self.changed.extend(went.flat_map(|folder| folder.files.iter().map(|file| folder.path(file.name))));
        manifest
    }

    /// A folder and the names of those within it.
    fn folder(&mut self, name: String) -> (FolderEntry, Vec<String>) {
        let at = self.old.folders.binary_search_by(|folder| folder.name.cmp(&name)).ok();
        let before = at.and_then(|at| Some((self.old.folders.get(at)?, *self.starts.get(at)?)));
        let Some((old, start)) = before else {
            let stamp = self.open.stamp(&name);
            let (files, inner) = (self.list)(&name);
            let mut entry = FolderEntry::new(name, stamp, self.now);
            entry.files = files.iter().map(|file| self.came(&entry, file)).collect();
            return (entry, inner);
        };
        let stamp = self.stamps.get(start).copied().flatten();
        let mut entry = FolderEntry::new(name, stamp, self.now);
        let stamps = self.stamps.get(start + 1..start + 1 + old.files.len()).unwrap_or_default();
        if stamp == old.stamp && !old.fresh {
            entry.files = old.files.iter().zip(stamps).map(|(file, stamp)| self.again(&entry, file, *stamp)).collect();
            let inner = self.inner.get(entry.name.as_str()).map(Vec::as_slice).unwrap_or_default();
            return (entry, inner.iter().map(ToString::to_string).collect());
        }
        let (files, inner) = (self.list)(&entry.name);
        let here: BTreeSet<&str> = files.iter().map(String::as_str).collect();
        let went = old.files.iter().filter(|file| !here.contains(file.name));
        self.changed.extend(went.map(|file| entry.path(file.name)));
        let known: BTreeMap<&str, (FileEntry, Option<Stamp>)> =
            old.files.iter().zip(stamps).map(|(file, stamp)| (file.name, (file, *stamp))).collect();
        let now: FileEntries = files
            .iter()
            .map(|name| match known.get(name.as_str()) {
                Some((file, stamp)) => self.again(&entry, *file, *stamp),
                None => self.came(&entry, name),
            })
            .collect();
        entry.files = now;
        (entry, inner)
    }

    /// A file that came.
    fn came<'n>(&mut self, folder: &FolderEntry, name: &'n str) -> FileEntry<'n> {
        let path = folder.path(name);
        let stamp = self.open.stamp(&path);
        self.changed.insert(path);
        FileEntry { name, stamp, fresh: is_fresh(stamp, self.now), hash: None }
    }

    /// A file that was there before.
    fn again<'n>(&mut self, folder: &FolderEntry, old: FileEntry<'n>, stamp: Option<Stamp>) -> FileEntry<'n> {
        if stamp == old.stamp && !old.fresh {
            return old;
        }
        let path = folder.path(old.name);
        let hash = content(self.root, &path);
        if hash != old.hash {
            self.changed.insert(path);
        }
        FileEntry { stamp, fresh: is_fresh(stamp, self.now), hash, ..old }
    }
}

impl FolderEntry {
    fn new(name: String, stamp: Option<Stamp>, now: Tick) -> Self {
        Self { name, stamp, fresh: is_fresh(stamp, now), files: FileEntries::default() }
    }
}

fn is_fresh(stamp: Option<Stamp>, now: Tick) -> bool {
    stamp.is_some_and(|stamp| stamp.is_fresh(now))
}

/// The hash of a file's content. `None`: no ordinary file, or it can't be read.
fn content(root: &Path, path: &str) -> Option<Hash> {
    let path = root.join(path);
    // Opening a pipe would wait for a writer.
    if !fs::metadata(&path).ok()?.is_file() {
        return None;
    }
    let mut bytes = Vec::new();
    fs::File::open(path).ok()?.take(LARGEST + 1).read_to_end(&mut bytes).ok()?;
    (bytes.len() as u64 <= LARGEST).then(|| hash(&bytes))
}
