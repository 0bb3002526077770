//! Where the cache folder is.

use crate::store::{Place, Tick};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};
use std::{env, fs};

/// The number of this program: what another one kept is not read.
pub(super) fn program() -> u64 {
    env!("WIRELORE_BUILD").parse().unwrap_or_default()
}

/// Where what belongs to a library is kept; `None`: the user has no cache folder, or the library can't be found.
pub(super) fn place(library: Option<&Path>) -> Option<Place> {
    let name = match library {
        None => "demo".to_string(),
        Some(library) => name(&fs::canonicalize(library).ok()?),
    };
    Some(Place::new(folder()?.join("wirelore").join(name), program()))
}

/// `XDG_CACHE_HOME`, else `.cache` in the home folder. A path that is not absolute is none.
fn folder() -> Option<PathBuf> {
    let path = |name| env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    path("XDG_CACHE_HOME").or_else(|| Some(path("HOME")?.join(".cache")))
}

/// A name that no other library has, and that says which it is.
fn name(library: &Path) -> String {
    let mut hash = String::new();
    for byte in crate::store::hash(library.as_os_str().as_encoded_bytes()).iter().take(8) {
        let _ = write!(hash, "{byte:02x}");
    }
    let last = library.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let plain: String = last.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').take(40).collect();
    format!("{plain}-{hash}")
}

/// The time, to tell what was written just now.
pub(super) fn now() -> Tick {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Tick::try_from(since.as_nanos()).unwrap_or(Tick::MAX)
}
