//! Running the program.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// What a run left behind.
#[derive(Debug)]
pub(super) struct Ran {
    pub(super) code: Option<i32>,
    pub(super) out: String,
    pub(super) err: String,
}

impl Ran {
    /// The same run, when it ended with this code.
    #[track_caller]
    pub(super) fn ends(self, code: i32) -> Self {
        assert_eq!(self.code, Some(code), "{self:#?}");
        self
    }
}

/// The program, in a folder, without a library of the environment's. `WIRELORE_PROGRAM` names another build of it, such
/// as a quick one for hundreds of kills.
pub(super) fn program(dir: &Path) -> Command {
    let path = std::env::var_os("WIRELORE_PROGRAM").unwrap_or_else(|| env!("CARGO_BIN_EXE_wirelore").into());
    let mut command = Command::new(path);
    command.current_dir(dir).env_remove("WIRELORE_LIBRARY").env("XDG_CACHE_HOME", cache()).stdin(Stdio::null());
    command
}

/// Where the tests keep what the program keeps.
fn cache() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("cache")
}

pub(super) fn run<S: AsRef<OsStr>>(dir: &Path, args: &[S]) -> Ran {
    ran(&program(dir).args(args).output().expect("the program starts"))
}

pub(super) fn ran(output: &Output) -> Ran {
    Ran {
        code: output.status.code(),
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: String::from_utf8_lossy(&output.stderr).into_owned(),
    }
}

pub(super) fn folder() -> TempDir {
    tempfile::tempdir().expect("a temporary folder")
}

/// A copy of the demo library, in a folder of its own.
pub(super) fn library() -> (TempDir, PathBuf) {
    let dir = folder();
    let library = dir.path().join("library");
    copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("library"), &library);
    (dir, library)
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder is made");
    for entry in fs::read_dir(from).expect("a folder is read") {
        let entry = entry.expect("an entry is read");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() { copy(&entry.path(), &target) } else { drop(fs::copy(entry.path(), target)) }
    }
}

/// Every file below a folder with its bytes, by path.
pub(super) fn files(dir: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    files_as(dir, |bytes| bytes)
}

/// Every file below a folder with what is made of its bytes, by path.
pub(super) fn files_as<T: Ord>(dir: &Path, made: impl Fn(Vec<u8>) -> T) -> Vec<(PathBuf, T)> {
    let mut files = Vec::new();
    let mut folders = vec![dir.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder is read") {
            let path = entry.expect("an entry is read").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let bytes = fs::read(&path).expect("a file is read");
                files.push((path.strip_prefix(dir).expect("below").to_path_buf(), made(bytes)));
            }
        }
    }
    files.sort();
    files
}

/// The names in a folder, sorted.
pub(super) fn names(dir: &Path) -> Vec<String> {
    let entries = fs::read_dir(dir).expect("a folder is read");
    let mut names: Vec<String> =
        entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// The names of the packs in a folder of packs, sorted.
pub(super) fn pack_names(out: &Path) -> Vec<String> {
    names(out).into_iter().filter(|name| !name.starts_with('.') && out.join(name).is_dir()).collect()
}

/// Every file of a folder of packs but what the program keeps there for itself.
pub(super) fn packs(dir: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    files(dir).into_iter().filter(|(path, _)| !path.starts_with(".wirelore")).collect()
}
