//! Writes a file as a whole: it is written beside its place and then named, so that whatever stops the program leaves the
//! old file or the new one. Two people who change one file do so one after the other.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Write};
use std::path::Path;
use tempfile::NamedTempFile;

/// How often a file may be replaced by others while we wait for our turn.
const TURNS: usize = 1000;

/// A file of which nobody else who uses [`hold`] changes a byte as long as this value lives.
#[derive(Debug)]
pub(super) struct Held {
    file: File,
    /// Its bytes.
    pub(super) bytes: Vec<u8>,
}

/// Waits for our turn at a file and reads it.
///
/// # Errors
/// When it can't be read or held, or others never stop replacing it.
pub(super) fn hold(path: &Path) -> io::Result<Held> {
    for _ in 0..TURNS {
        let mut file = File::open(path)?;
        file.lock()?;
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes)?;
        // Whoever held it before us may have put another file into its place: then that one is the one to hold.
        if fs::read(path)? == bytes {
            return Ok(Held { file, bytes });
        }
    }
    Err(io::Error::new(ErrorKind::TimedOut, "others keep changing it"))
}

impl Held {
    /// Puts these bytes into the place of the file's, with the same permissions.
    ///
    /// # Errors
    /// When the disk is full or the file can't be replaced; the old one is then still whole.
    pub(super) fn replace(self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let permissions = self.file.metadata()?.permissions();
        if permissions.readonly() {
            return Err(io::Error::new(ErrorKind::PermissionDenied, "it may only be read"));
        }
        let real = fs::canonicalize(path)?;
        let folder = real.parent().unwrap_or(Path::new("."));
        let mut beside = tempfile::Builder::new().prefix(".wirelore-").tempfile_in(folder)?;
        beside.write_all(bytes)?;
        beside.as_file().set_permissions(permissions)?;
        // A disk may say that it is full only when the bytes are really put down.
        beside.as_file().sync_all()?;
        beside.persist(&real).map_err(|error| error.error)?;
        // The name is kept by the folder; a system that can't flush a folder has put it down already.
        File::open(folder).and_then(|folder| folder.sync_all()).or(Ok(()))
    }
}

/// Puts a new file at a path where nothing lies yet.
///
/// # Errors
/// When something lies there, or the disk will not have it; then nothing is left of it.
pub(super) fn create(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = beside(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist_noclobber(path).map(drop).map_err(|error| error.error)
}

/// A file of our own in a folder, hidden, that everybody may read who may read the library.
pub(super) fn beside(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    let builder = builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.prefix(".wirelore-").tempfile_in(folder)
}
