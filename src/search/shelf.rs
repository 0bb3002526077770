//! Where an index keeps its files: in memory, over a folder that is only read. An index is made and changed in memory
//! alone; whoever keeps it on disk takes its new files from here and puts them down as it sees fit.

use std::collections::BTreeMap;
use std::fmt;
use std::io::{self, BufWriter, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard};
use tantivy::HasLen;
use tantivy::directory::error::{DeleteError, LockError, OpenDirectoryError, OpenReadError, OpenWriteError};
use tantivy::directory::{
    AntiCallToken, Directory, DirectoryLock, FileHandle, Lock, MmapDirectory, OwnedBytes, TerminatingWrite,
    WatchCallback, WatchHandle, WritePtr,
};

/// Files by name.
type Files = BTreeMap<PathBuf, OwnedBytes>;

/// Whether a stretch of a file is as it was written, given the whole file.
pub type IsWhole = Box<dyn Fn(&[u8], Range<usize>) -> bool + Send + Sync>;

/// Files in memory over files in a folder.
#[derive(Clone, Default)]
pub(super) struct Shelf {
    folder: Option<MmapDirectory>,
    /// How the files of the folder are looked at before they are read.
    looks: Arc<BTreeMap<PathBuf, Arc<IsWhole>>>,
    files: Arc<RwLock<Files>>,
}

impl fmt::Debug for Shelf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Shelf").field("folder", &self.folder).finish_non_exhaustive()
    }
}

impl Shelf {
    /// A shelf over a folder, with some files in memory already.
    ///
    /// # Errors
    /// When there is no such folder.
    pub(super) fn over(
        folder: &Path,
        looks: BTreeMap<String, IsWhole>,
        files: BTreeMap<String, Vec<u8>>,
    ) -> Result<Self, OpenDirectoryError> {
        let files = files.into_iter().map(|(name, bytes)| (name.into(), OwnedBytes::new(bytes))).collect();
        let looks = looks.into_iter().map(|(name, look)| (name.into(), Arc::new(look))).collect();
        let folder = Some(MmapDirectory::open(folder)?);
        Ok(Self { folder, looks: Arc::new(looks), files: Arc::new(RwLock::new(files)) })
    }

    /// What is in memory: all that was written since.
    pub(super) fn written(&self) -> BTreeMap<String, OwnedBytes> {
        let name = |path: &PathBuf| path.to_string_lossy().into_owned();
        self.read().iter().map(|(path, bytes)| (name(path), bytes.clone())).collect()
    }

    /// Puts a file into memory.
    pub(super) fn put(&self, name: &str, bytes: OwnedBytes) {
        self.write().insert(name.into(), bytes);
    }

    fn read(&self) -> RwLockReadGuard<'_, Files> {
        // A map is whole whatever a thread that held it did.
        self.files.read().unwrap_or_else(PoisonError::into_inner)
    }

    fn write(&self) -> RwLockWriteGuard<'_, Files> {
        self.files.write().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Directory for Shelf {
    fn get_file_handle(&self, path: &Path) -> Result<Arc<dyn FileHandle>, OpenReadError> {
        if let Some(bytes) = self.read().get(path) {
            return Ok(Arc::new(bytes.clone()));
        }
        let (Some(folder), Some(look)) = (&self.folder, self.looks.get(path)) else {
            return Err(OpenReadError::FileDoesNotExist(path.to_path_buf()));
        };
        let file = folder.get_file_handle(path)?;
        let bytes = file.read_bytes(0..file.len()).map_err(|error| OpenReadError::wrap_io_error(error, path.into()))?;
        Ok(Arc::new(Looked { bytes, look: Arc::clone(look) }))
    }

    /// What lies in the folder stays there: other processes may read it.
    fn delete(&self, path: &Path) -> Result<(), DeleteError> {
        self.write().remove(path);
        Ok(())
    }

    fn exists(&self, path: &Path) -> Result<bool, OpenReadError> {
        let in_folder = || self.folder.as_ref().map_or(Ok(false), |folder| folder.exists(path));
        if self.read().contains_key(path) { Ok(true) } else { in_folder() }
    }

    fn open_write(&self, path: &Path) -> Result<WritePtr, OpenWriteError> {
        Ok(BufWriter::new(Box::new(Page { shelf: self.clone(), path: path.to_path_buf(), bytes: Vec::new() })))
    }

    fn atomic_read(&self, path: &Path) -> Result<Vec<u8>, OpenReadError> {
        if let Some(bytes) = self.read().get(path) {
            return Ok(bytes.as_slice().to_vec());
        }
        Err(OpenReadError::FileDoesNotExist(path.to_path_buf()))
    }

    fn atomic_write(&self, path: &Path, data: &[u8]) -> io::Result<()> {
        self.write().insert(path.to_path_buf(), OwnedBytes::new(data.to_vec()));
        Ok(())
    }

    fn sync_directory(&self) -> io::Result<()> {
        Ok(())
    }

    /// Nobody else sees this shelf, so there is nobody to lock out.
    fn acquire_lock(&self, _: &Lock) -> Result<DirectoryLock, LockError> {
        Ok(DirectoryLock::from(Box::new(())))
    }

    fn watch(&self, _: WatchCallback) -> tantivy::Result<WatchHandle> {
        Ok(WatchHandle::empty())
    }
}

/// A file of the folder. What of it is read has been looked at.
struct Looked {
    bytes: OwnedBytes,
    look: Arc<IsWhole>,
}

impl fmt::Debug for Looked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Looked").field("length", &self.bytes.len()).finish_non_exhaustive()
    }
}

impl HasLen for Looked {
    fn len(&self) -> usize {
        self.bytes.len()
    }
}

impl FileHandle for Looked {
    fn read_bytes(&self, range: Range<usize>) -> io::Result<OwnedBytes> {
        if range.end <= self.bytes.len() && (self.look)(&self.bytes, range.clone()) {
            return Ok(self.bytes.slice(range));
        }
        Err(io::Error::new(io::ErrorKind::InvalidData, "it is not as it was written"))
    }
}

/// A file that is being written.
struct Page {
    shelf: Shelf,
    path: PathBuf,
    bytes: Vec<u8>,
}

impl Write for Page {
    fn write(&mut self, buf: &[u8]) -> io::Result<usize> {
        self.bytes.extend_from_slice(buf);
        Ok(buf.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl TerminatingWrite for Page {
    fn terminate_ref(&mut self, _: AntiCallToken) -> io::Result<()> {
        let bytes = std::mem::take(&mut self.bytes);
        self.shelf.write().insert(self.path.clone(), OwnedBytes::new(bytes));
        Ok(())
    }
}
