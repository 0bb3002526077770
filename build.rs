//! Has the program built anew when a file is added to what it embeds (the compiler sees changed files only), and gives
//! it a number for its own sources: what another program kept is not read.

use std::collections::BTreeSet;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io;
use std::path::{Path, PathBuf};

fn main() -> io::Result<()> {
    let mut hasher = DefaultHasher::new();
    for place in ["Cargo.lock", "library", "src", "templates"] {
        println!("cargo::rerun-if-changed={place}");
        for file in below(Path::new(place))? {
            (file.to_string_lossy(), fs::read(&file)?).hash(&mut hasher);
        }
    }
    println!("cargo::rustc-env=WIRELORE_BUILD={}", hasher.finish());
    Ok(())
}

/// Every file in a folder and the folders within it, sorted.
fn below(place: &Path) -> io::Result<BTreeSet<PathBuf>> {
    if !place.is_dir() {
        return Ok(BTreeSet::from([place.to_path_buf()]));
    }
    let mut files = BTreeSet::new();
    for entry in fs::read_dir(place)? {
        files.extend(below(&entry?.path())?);
    }
    Ok(files)
}
