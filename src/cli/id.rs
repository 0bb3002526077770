//! What an id may be. It is a file's stem and a folder's name, so nothing else is let through.

use super::report::Report;

/// Whether a text is an id: lower-case letters, digits and hyphens.
pub(super) fn is_id(text: &str) -> bool {
    let is_letter = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    !text.is_empty() && text.len() <= 100 && text.chars().all(is_letter)
}

/// Refuses what is no id of a new file.
///
/// # Errors
/// When it is none, with what would be one.
pub(super) fn new_id(id: &str) -> Result<(), Report> {
    if !is_id(id) {
        let hint = "an id has lower-case letters, digits and hyphens, for example merrowby-mb6";
        return Err(Report::wrong_usage(format!("error: \"{id}\" is no id: {hint}")));
    }
    if matches!(id, "panel" | "board") {
        return Err(Report::wrong_usage(format!("error: \"{id}\" is no id: surveys use that word for a power source")));
    }
    Ok(())
}
