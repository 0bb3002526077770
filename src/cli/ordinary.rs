//! Reads an ordinary file that somebody named: a pipe would be waited for, and a device has no end.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

/// The first `most` bytes of a file.
///
/// # Errors
/// When it is no ordinary file, or can't be read.
pub(super) fn first(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::Error::other("this is no ordinary file"));
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The bytes of a file that the program itself makes, however many.
///
/// # Errors
/// The same.
pub(super) fn whole(path: &Path) -> io::Result<Vec<u8>> {
    first(path, u64::MAX)
}
