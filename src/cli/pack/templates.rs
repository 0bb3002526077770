//! The user's own templates.

use super::super::report::Report;
use crate::render::{TemplateFault, Templates};
use crate::store::{Hash, content};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

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
            files.insert(name, fs::read_to_string(&path).map_err(|error| failed(&path, &error))?);
        }
    }
    Ok(files)
}
