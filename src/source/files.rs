//! The files of a library: from a folder, or embedded in the program.

use super::picture::{PicturePlace, is_picture};
use include_dir::{Dir, include_dir};
use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::Path;

/// The largest card, survey or note that is read, in bytes.
pub const LARGEST: u64 = 1024 * 1024;

/// The demo library.
static EMBEDDED: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/library");

/// The folders of a library that hold files directly.
pub(super) const FOLDERS: [&str; 7] = ["boards", "cables", "devices", "panels", "rules", "supplies", "surveys"];

/// Why a file could not be read, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFault {
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub help: String,
}

/// The files of a library, sorted by path.
#[derive(Debug, Clone, Default)]
pub struct Files {
    /// The folder, as the user names it.
    pub root: String,
    /// Path below the folder, with `/` between its parts, to the file's bytes.
    pub files: BTreeMap<String, Result<Vec<u8>, FileFault>>,
    /// The pictures beside notes, by the same kind of path, not read yet.
    pub pictures: BTreeMap<String, PicturePlace>,
}

/// One file to check on its own.
#[derive(Debug, Clone)]
pub struct SourceFile {
    /// The file, as the user names it.
    pub path: String,
    /// Its bytes, or why it could not be read.
    pub bytes: Result<Vec<u8>, FileFault>,
    /// Whether it lies in a library's `surveys` folder, where a survey's id is its file's stem.
    pub in_library: bool,
}

impl SourceFile {
    /// Reads a file. What can't be read is a fault in it, not a panic.
    #[must_use]
    pub fn read(path: &Path) -> Self {
        Self { path: shown(path), bytes: read_file(path), in_library: false }
    }
}

impl Files {
    /// The demo library, embedded in the program.
    #[must_use]
    pub fn embedded() -> Self {
        let mut files = Self { root: "library".into(), ..Self::default() };
        files.embed(&EMBEDDED);
        files
    }

    /// The library in a folder. Only its own folders are looked into; what is neither a card, a
    /// survey, a note nor a picture beside a note is left alone.
    #[must_use]
    pub fn from_dir(dir: &Path) -> Self {
        Self::from_folders(dir, &FOLDERS)
    }

    /// The library in a folder without its surveys.
    #[must_use]
    pub fn cards_from_dir(dir: &Path) -> Self {
        let folders: Vec<&str> = FOLDERS.into_iter().filter(|folder| *folder != "surveys").collect();
        Self::from_folders(dir, &folders)
    }

    fn from_folders(dir: &Path, folders: &[&str]) -> Self {
        let mut files = Self { root: shown(dir), ..Self::default() };
        if !dir.is_dir() {
            let message = if dir.exists() {
                "this is a file, where a library's folder is due"
            } else {
                "there is no such folder"
            };
            files.refuse("", message, "name the folder that holds `panels`, `boards`, `devices` …");
            return files;
        }
        files.take(dir, "terms.yaml");
        for folder in folders {
            files.take_folder(dir, folder);
        }
        for card in files.names(dir, "notes") {
            files.take_folder(dir, &format!("notes/{card}"));
        }
        if files.files.is_empty() && !FOLDERS.iter().any(|folder| dir.join(folder).exists()) {
            files.refuse(
                "",
                "there is no library in this folder",
                "`wirelore new library DIR` writes one to start from",
            );
        }
        files
    }

    /// Some files of the library in a folder, by their paths below it. A path where nothing lies is left out.
    #[must_use]
    pub fn some(dir: &Path, paths: impl IntoIterator<Item = String>) -> Self {
        let mut files = Self { root: shown(dir), ..Self::default() };
        for path in paths {
            let on_disk = dir.join(&path);
            if !is_picture(&path) {
                files.take(dir, &path);
            } else if fs::symlink_metadata(&on_disk).is_ok() {
                files.pictures.insert(path, PicturePlace::OnDisk(on_disk));
            }
        }
        files
    }

    /// How the user would name the file at `path`.
    #[must_use]
    pub fn shown(&self, path: &str) -> String {
        match (self.root.as_str(), path) {
            ("", path) => path.to_owned(),
            (root, "") => root.to_owned(),
            (root, path) => format!("{}/{path}", root.trim_end_matches('/')),
        }
    }

    /// The library's own surveys, in path order.
    #[must_use]
    pub fn surveys(&self) -> Vec<SourceFile> {
        self.files
            .iter()
            .filter(|(path, _)| path.starts_with("surveys/"))
            .map(|(path, bytes)| SourceFile { path: self.shown(path), bytes: bytes.clone(), in_library: true })
            .collect()
    }

    fn embed(&mut self, dir: &'static Dir<'static>) {
        for file in dir.files() {
            let path = file.path().to_string_lossy().replace('\\', "/");
            if is_content(&path) {
                self.files.insert(path, Ok(file.contents().to_vec()));
            } else if is_picture(&path) {
                self.pictures.insert(path, PicturePlace::Embedded(file.contents()));
            }
        }
        for inner in dir.dirs() {
            self.embed(inner);
        }
    }

    fn refuse(&mut self, path: &str, message: &str, help: &str) {
        self.files.insert(path.to_owned(), Err(FileFault { message: message.into(), help: help.into() }));
    }

    fn take(&mut self, dir: &Path, path: &str) {
        let on_disk = dir.join(path);
        match fs::symlink_metadata(&on_disk) {
            Ok(about) if about.is_symlink() || lies_in_link(&on_disk, dir) => self.take_link(dir, path, &on_disk),
            Ok(_) => drop(self.files.insert(path.to_owned(), read_file(&on_disk))),
            // Nothing lies there any more; or it does, under a name that can't be written as text.
            Err(_) if path.contains('\u{fffd}') => {
                self.refuse(path, "the name of this file is not UTF-8 text", "give it a name of ordinary letters");
            }
            Err(_) => {}
        }
    }

    /// Takes what a link leads to, as long as that lies in the library: cards are shared, other files are not.
    fn take_link(&mut self, dir: &Path, path: &str, on_disk: &Path) {
        let leads_out =
            fs::canonicalize(dir).is_ok_and(|root| fs::canonicalize(on_disk).is_ok_and(|real| !real.starts_with(root)));
        if leads_out {
            let help = "put the file itself into the library";
            self.refuse(path, "this is a link that leads out of the library", help);
        } else {
            self.files.insert(path.to_owned(), read_file(on_disk));
        }
    }

    fn take_folder(&mut self, dir: &Path, folder: &str) {
        for name in self.names(dir, folder) {
            let path = format!("{folder}/{name}");
            if is_content(&path) {
                self.take(dir, &path);
            } else if is_picture(&path) {
                self.pictures.insert(path, PicturePlace::OnDisk(dir.join(folder).join(&name)));
            } else if self.names_within(dir, &path).iter().any(|inner| is_content(&format!("{folder}/{inner}"))) {
                let help = format!("move them to `{folder}/`; folders within it are not looked into");
                self.refuse(&path, "this folder holds files that are not read", &help);
            } else if has_ending(&name, "yml") {
                self.refuse(&path, "this file is not read: its name ends in `.yml`", "let the name end in `.yaml`");
            }
        }
    }

    /// The names in a folder within a folder of cards; none when it is a file.
    fn names_within(&mut self, dir: &Path, path: &str) -> Vec<String> {
        if dir.join(path).is_dir() { self.names(dir, path) } else { Vec::new() }
    }

    /// The names in a folder, sorted; none when there is no such folder. Hidden files are left out.
    fn names(&mut self, dir: &Path, folder: &str) -> Vec<String> {
        let on_disk = dir.join(folder);
        if !on_disk.is_dir() {
            if on_disk.exists() && folder != "notes" && !folder.starts_with("notes/") {
                self.refuse(
                    folder,
                    "this is a file, where a folder is due",
                    "make it a folder and put the cards into it",
                );
            }
            return Vec::new();
        }
        let Ok(entries) = fs::read_dir(&on_disk) else {
            self.refuse(folder, "this folder can't be read", "look at its permissions");
            return Vec::new();
        };
        let mut names: Vec<String> = entries
            .filter_map(Result::ok)
            .map(|entry| entry.file_name().to_string_lossy().into_owned())
            .filter(|name| !name.starts_with('.'))
            .collect();
        names.sort_unstable();
        names
    }
}

/// Whether a name is a YAML file's.
#[must_use]
pub fn ends_in_yaml(name: &str) -> bool {
    has_ending(name, "yaml")
}

pub(super) fn has_ending(name: &str, ending: &str) -> bool {
    Path::new(name).extension().is_some_and(|found| found.eq_ignore_ascii_case(ending))
}

/// Whether a path in a library is a card, a survey or a note.
pub(super) fn is_content(path: &str) -> bool {
    if path.starts_with("notes/") { has_ending(path, "md") } else { ends_in_yaml(path) }
}

/// Whether one of the folders between the library's own and a file is a link.
fn lies_in_link(file: &Path, dir: &Path) -> bool {
    file.ancestors().skip(1).take_while(|folder| *folder != dir).any(Path::is_symlink)
}

fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

/// The bytes of an ordinary file that is not too large.
fn read_file(path: &Path) -> Result<Vec<u8>, FileFault> {
    let refuse = |message: String, help: &str| Err(FileFault { message, help: help.to_owned() });
    let about = match fs::metadata(path) {
        Ok(about) => about,
        Err(error) => {
            return refuse(format!("this file can't be read: {error}"), "look at its name and its permissions");
        }
    };
    if about.is_dir() {
        return refuse("this is a folder, where a file is due".into(), "name a file, or move what is in the folder");
    }
    if !about.is_file() {
        return refuse("this is not an ordinary file".into(), "put an ordinary file in its place");
    }
    let mut bytes = Vec::with_capacity(usize::try_from(about.len().min(LARGEST)).unwrap_or(0) + 1);
    let read = fs::File::open(path).and_then(|file| file.take(LARGEST + 1).read_to_end(&mut bytes));
    if let Err(error) = read {
        return refuse(format!("this file can't be read: {error}"), "look at its permissions");
    }
    // What is read counts: the file may have grown since its size was asked.
    if bytes.len() as u64 > LARGEST {
        return refuse("this file is larger than 1 MiB".into(), "split it; a card or a survey needs some kilobytes");
    }
    Ok(bytes)
}
