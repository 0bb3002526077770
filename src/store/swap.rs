//! Two folders change places.

use std::fs;
use std::io;
use std::path::Path;

/// Puts the folder `new` in the place of the folder `at`; the old one is then at `new`. Where the file system can
/// exchange two names, nobody ever sees neither; elsewhere the old one is at `aside` for a moment, from where
/// [`Out`](super::Out) takes it back if the process ends then.
///
/// # Errors
/// When that can't be done; the old folder is then in its place.
pub fn exchange(new: &Path, at: &Path, aside: &Path) -> io::Result<()> {
    if at_once(new, at) {
        return Ok(());
    }
    if let Some(folder) = aside.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::rename(at, aside)?;
    if let Err(error) = fs::rename(new, at) {
        // Should it not go back, it is taken back by the next process.
        let _ = fs::rename(aside, at);
        return Err(error);
    }
    fs::rename(aside, new)
}

#[cfg(target_os = "linux")]
fn at_once(new: &Path, at: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, new, CWD, at, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(target_os = "linux"))]
fn at_once(_: &Path, _: &Path) -> bool {
    false
}

/// Has the file system of a folder put down all that was written.
#[cfg(target_os = "linux")]
pub(super) fn settle(folder: &Path) -> io::Result<()> {
    Ok(rustix::fs::syncfs(fs::File::open(folder)?)?)
}

/// Elsewhere the system puts it down when it likes.
#[cfg(not(target_os = "linux"))]
pub(super) fn settle(_: &Path) -> io::Result<()> {
    Ok(())
}
