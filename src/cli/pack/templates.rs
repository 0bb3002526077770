//! The user's own templates: read from their folder alone, and stopped when they do not end.

use super::super::report::Report;
use super::super::screen;
use crate::render::{TemplateFault, Templates};
use crate::store::{Hash, content};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Duration;

/// The most bytes of a template.
const LARGEST: u64 = 1024 * 1024;
/// How long the pages of one survey, one sheet, one index may take. A pack's take a hundredth of a second.
const LONGEST: Duration = Duration::from_secs(30);

/// The program's templates, those of `folder` in the place of ours of the same name.
///
/// # Errors
/// When the folder or a file can't be read, or a template has a fault.
pub(in crate::cli) fn read(folder: Option<&Path>) -> Result<Templates, Report> {
    read_with_hash(folder).map(|(templates, _)| templates)
}

/// The same, with what stands for the content of the user's own.
///
/// # Errors
/// The same.
pub(super) fn read_with_hash(folder: Option<&Path>) -> Result<(Templates, Hash), Report> {
    let others = match folder {
        Some(folder) => files(folder)?,
        None => BTreeMap::new(),
    };
    let hash = content(others.iter().map(|(name, text)| (name.as_str(), text.as_bytes())));
    let templates = Templates::with(&others);
    let templates = templates.map_err(|fault| Report::content(format!("error: {}", told(&fault, folder))))?;
    Ok((templates, hash))
}

/// What templates make, those of `folder` in the place of ours; the program ends when it is not there in time.
///
/// # Errors
/// When a template has a fault, or there is no thread to be had to watch over them; in words.
pub(in crate::cli) fn made<T>(
    folder: Option<&Path>,
    make: impl FnOnce() -> Result<T, TemplateFault>,
) -> Result<T, String> {
    let _watch = Watch::over(folder).map_err(|error| format!("can't start a thread: {error}"))?;
    make().map_err(|fault| told(&fault, folder))
}

/// A fault with the file named as the user would name it.
fn told(fault: &TemplateFault, folder: Option<&Path>) -> String {
    let own = folder.map(|folder| folder.join(&fault.file)).filter(|path| path.is_file());
    match own {
        Some(path) => TemplateFault { file: path.display().to_string(), ..fault.clone() }.to_string(),
        None => format!("template {fault}"),
    }
}

fn files(folder: &Path) -> Result<BTreeMap<String, String>, Report> {
    let failed = |path: &Path, error: &std::io::Error| {
        Report::machine(format!("error: can't read the templates in {}: {error}", path.display()))
    };
    let mut files = BTreeMap::new();
    for entry in fs::read_dir(folder).map_err(|error| failed(folder, &error))? {
        let path = entry.map_err(|error| failed(folder, &error))?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_file() && [".md", ".html", ".css", ".js"].iter().any(|ending| name.ends_with(ending)) {
            files.insert(name, text(folder, &path).map_err(|error| failed(&path, &error))?);
        }
    }
    Ok(files)
}

/// The text of a template.
fn text(folder: &Path, path: &Path) -> io::Result<String> {
    if !fs::canonicalize(path)?.starts_with(fs::canonicalize(folder)?) {
        return Err(io::Error::other(format!("{} is a link that leads out of it", path.display())));
    }
    let mut text = String::new();
    File::open(path)?.take(LARGEST + 1).read_to_string(&mut text)?;
    if text.len() as u64 > LARGEST {
        return Err(io::Error::other(format!("{} is larger than 1 MiB", path.display())));
    }
    Ok(text)
}

/// Ends the program when pages are not there in time: a template may loop for longer than anybody lives.
/// Dropped, it watches no more.
#[derive(Debug)]
struct Watch(#[expect(dead_code, reason = "it is dropped, and that is seen")] Sender<()>);

impl Watch {
    /// Watches over templates of the user's; over ours there is no need to.
    ///
    /// # Errors
    /// When there is no thread to be had for it.
    fn over(folder: Option<&Path>) -> io::Result<Option<Self>> {
        let Some(folder) = folder else { return Ok(None) };
        let name = folder.display().to_string();
        let (sender, receiver) = channel();
        let watch = move || {
            if receiver.recv_timeout(LONGEST) == Err(RecvTimeoutError::Timeout) {
                let seconds = LONGEST.as_secs();
                let text = format!("error: the templates in {name} did not end within {seconds} seconds");
                let outcome = screen::print(&Report::content(text));
                std::process::exit(outcome.code().into());
            }
        };
        thread::Builder::new().spawn(watch)?;
        Ok(Some(Self(sender)))
    }
}
