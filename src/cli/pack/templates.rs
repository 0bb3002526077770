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
/// How long the pages of one survey may take. They take a hundredth of a second.
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

/// A fault with the file named as the user would name it.
pub(in crate::cli) fn told(fault: &TemplateFault, folder: Option<&Path>) -> String {
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

/// Ends the program when the pages of a survey are not there in time: a template may loop for longer than anybody lives.
/// Dropped, it watches no more.
#[derive(Debug)]
pub(super) struct Watch(#[expect(dead_code, reason = "it is dropped, and that is seen")] Sender<()>);

impl Watch {
    /// Watches over templates of the user's; over ours there is no need to.
    pub(super) fn over(folder: Option<&Path>) -> Option<Self> {
        let name = folder?.display().to_string();
        let (sender, receiver) = channel();
        thread::spawn(move || {
            if receiver.recv_timeout(LONGEST) == Err(RecvTimeoutError::Timeout) {
                let seconds = LONGEST.as_secs();
                let text = format!("error: the templates in {name} did not end within {seconds} seconds");
                let outcome = screen::print(&Report::content(text));
                std::process::exit(outcome.code().into());
            }
        });
        Some(Self(sender))
    }
}
