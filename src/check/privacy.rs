//! What must not be shared, looked for in every card and note. It stands apart from the check of what a file says: a
//! card that holds a telephone number is still a right card, and nothing is planned differently for it.

use crate::diagnostics::{Fault, Span, sort};
use crate::guard::{Guard, Leak, Site};
use crate::source::{self, Files, SourceFile};

/// The sites that surveys name. A survey with faults names its site all the same; one that can't be read names none.
#[must_use]
pub fn sites(surveys: &[SourceFile]) -> Vec<Site> {
    surveys.iter().filter_map(site).collect()
}

fn site(survey: &SourceFile) -> Option<Site> {
    let text = source::text_of(&survey.path, survey.bytes.as_ref().ok()?).ok()?;
    let root = source::read(&survey.path, text).ok()?;
    let own = |key: &str| Some(root.get("site")?.get(key)?.text()?.to_owned());
    let id = root.get("survey")?.text()?.to_owned();
    Some(Site { survey: id, name: own("name"), address: own("address") })
}

/// Every place in a library's cards, rules, rings and notes where something stands that must not be shared, in file
/// order, then line order. Surveys are not shared, and are not looked at.
#[must_use]
pub fn privacy(files: &Files, guard: &Guard) -> Vec<Fault> {
    let mut faults: Vec<Fault> = files.files.keys().flat_map(|path| private_file(files, guard, path)).collect();
    sort(&mut faults);
    faults
}

/// Everything in one file of a library, and in its name, that must not be shared; nothing of a survey.
#[must_use]
pub fn private_file(files: &Files, guard: &Guard, path: &str) -> Vec<Fault> {
    if path.starts_with("surveys/") {
        return Vec::new();
    }
    let shown = files.shown(path);
    let bytes = files.files.get(path).and_then(|bytes| bytes.as_ref().ok());
    let text = bytes.and_then(|bytes| source::text_of(&shown, bytes).ok());
    let mut faults = text.map(|text| private(guard, &shown, text)).unwrap_or_default();
    faults.extend(named(guard, &shown, path));
    faults
}

/// Everything in one text that must not be shared. `file` names it in the faults.
#[must_use]
pub fn private(guard: &Guard, file: &str, text: &str) -> Vec<Fault> {
    guard.leaks(text).iter().map(|leak| fault(file, text, leak)).collect()
}

fn fault(file: &str, text: &str, leak: &Leak) -> Fault {
    let words = text.get(leak.place.clone()).unwrap_or_default();
    Fault::new(file, text, Span::of(text, &leak.place), said(words, leak)).with_help(leak.what.instead())
}

fn said(words: &str, leak: &Leak) -> String {
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    format!("`{words}` is {}: it must not be in a shared library", leak.what.word())
}

/// A note's name is made of its first words; those tell as much as the text does.
fn named(guard: &Guard, shown: &str, path: &str) -> Option<Fault> {
    let name = path.strip_prefix("notes/")?.rsplit('/').next()?;
    let words = name.get(11..)?.trim_end_matches(".md").replace('-', " ");
    let leak = guard.leaks(&words).into_iter().next()?;
    let found = said(words.get(leak.place.clone()).unwrap_or_default(), &leak);
    Some(Fault::of_file(shown, format!("in the file's name, {found}")).with_help("give the file another name"))
}
