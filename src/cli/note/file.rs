//! A note's file: its name, its text, and how it gets to its place.

use super::super::args::Note;
use super::super::place::lies_within;
use super::super::replace::beside;
use super::super::report::Report;
use jiff::civil::Date;
use serde_json::Value;
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// How many words of a note its file's name takes, and how many letters at most.
const NAME_WORDS: usize = 6;
const NAME_LETTERS: usize = 48;

/// Writes a note under the first free name. It is written beside its place and then named, so that nobody ever reads
/// half of it, and a name that another took in the meantime is another's.
///
/// # Errors
/// When the disk will not have it.
pub(super) fn write(library: &Path, folder: &Path, stem: &str, text: &str) -> Result<PathBuf, Report> {
    let failed =
        |path: &Path, error: &io::Error| Report::machine(format!("error: can't write {}: {error}", path.display()));
    let made = lies_within(library, folder).and_then(|()| fs::create_dir_all(folder));
    made.map_err(|error| failed(folder, &error))?;
    let mut file = beside(folder).map_err(|error| failed(folder, &error))?;
    file.write_all(text.as_bytes()).and_then(|()| file.as_file().sync_all()).map_err(|error| failed(folder, &error))?;
    for number in 1_u32.. {
        let name = if number == 1 { format!("{stem}.md") } else { format!("{stem}-{number}.md") };
        let path = folder.join(name);
        match file.persist_noclobber(&path) {
            Ok(_) => return Ok(path),
            Err(error) if error.error.kind() == ErrorKind::AlreadyExists => file = error.file,
            Err(error) => return Err(failed(&path, &error.error)),
        }
    }
    Err(Report::machine(format!("error: no name is free in {}", folder.display())))
}

/// The name of a note's file without its ending: its date and a slug of its first words.
pub(super) fn stem(date: Date, text: &str) -> String {
    format!("{date}-{}", slug(text))
}

/// The file's text: the header of DESIGN.md section 4.7, then the words.
pub(super) fn text(date: Date, by: Option<&str>, note: &Note, words: &str) -> String {
    let quoted = |text: &str| Value::String(text.to_owned()).to_string();
    let mut lines = vec!["---".to_string()];
    lines.extend(note.about.as_deref().map(|about| format!("about: {}", quoted(about))));
    lines.push(format!("date: {date}"));
    lines.extend(by.map(|by| format!("by: {}", quoted(by))));
    lines.extend(note.job.as_deref().map(|job| format!("job: {}", quoted(job))));
    lines.extend(note.how.map(|how| format!("how: {}", how.how().word())));
    lines.extend(note.agreement().map(|agrees| format!("agrees: {agrees}")));
    lines.push("---".to_string());
    lines.push(words.trim().to_string());
    lines.join("\n") + "\n"
}

/// The first words of a note as part of a file's name.
fn slug(text: &str) -> String {
    let letters: String =
        text.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect();
    let mut slug = String::new();
    for word in letters.split_whitespace().take(NAME_WORDS) {
        let word: String = word.chars().take(NAME_LETTERS).collect();
        if slug.len() + word.len() >= NAME_LETTERS && !slug.is_empty() {
            break;
        }
        if !slug.is_empty() {
            slug.push('-');
        }
        slug.push_str(&word);
    }
    if slug.is_empty() { "note".to_string() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::slug;

    #[test]
    fn a_name_is_made_of_the_first_words() {
        assert_eq!(slug("The strobe trigger idles at 12.9 V here, not at 0 V."), "the-strobe-trigger-idles-at-12");
        assert_eq!(slug("../../etc/passwd"), "etc-passwd");
        assert_eq!(slug("…"), "note");
        assert!(slug(&"x".repeat(4000)).len() <= 48);
    }
}
