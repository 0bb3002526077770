//! Puts an index and what belongs to it into the cache folder, if that can be done now.

use super::Finder;
use crate::cli::report::Report;
use crate::search::Image;
use crate::store::{Blocks, Kept, Manifest, Name, Place, Turn};
use std::collections::BTreeSet;
use std::io;

impl Finder {
    /// Keeps the index. Where another process is writing, or nothing can be written, it is not kept: the question is
    /// answered all the same.
    ///
    /// # Errors
    /// When the index can't say what its files are.
    pub(super) fn keep(&mut self) -> Result<(), Report> {
        let Some(turn) = self.place.as_ref().and_then(Place::turn) else { return Ok(()) };
        let image = self.index.image()?;
        self.kept.heads.clone_from(&image.heads);
        self.kept.needed.retain(|name, _| image.needed.contains(name));
        self.kept.needed.extend(image.new.iter().map(|(name, bytes)| (name.clone(), Blocks::of(bytes))));
        let before = turn.place().read::<Kept>(Name::State).map(|(kept, _)| kept.needed).unwrap_or_default();
        let before = before.into_keys().collect();
        let _ = put(&turn, &image, &self.kept, &self.manifest, before);
        Ok(())
    }
}

/// The large files first, then the state that names them. Those of the state before stay for readers that have just
/// read it.
fn put(turn: &Turn<'_>, image: &Image, kept: &Kept, manifest: &Manifest, before: BTreeSet<String>) -> io::Result<()> {
    for (name, bytes) in &image.new {
        turn.put(name, bytes)?;
    }
    // Another process may have made a new index since this one was opened, and cleared its files away.
    if !image.needed.iter().all(|name| turn.has(name)) {
        return Ok(());
    }
    turn.set(Name::State, kept, manifest)?;
    turn.sweep(&before.into_iter().chain(image.needed.iter().cloned()).collect());
    Ok(())
}
