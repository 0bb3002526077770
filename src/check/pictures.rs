//! The pictures of notes: each that a note shows is there and is what its name says, and shows nobody where it was
//! taken. This stands apart from the check of what a note says: one whose picture is missing is still a right note, and
//! its words are shown.

use super::images::{Image, images};
use super::look;
use crate::diagnostics::{Fault, Span, sort};
use crate::guard::{Guard, What, taken_at};
use crate::source::{self, Files, Picture};
use crate::wording::all_nearest;
use std::collections::BTreeSet;

/// Everything that is wrong with a library's pictures and with how notes show them, and a warning for each that no note
/// shows; in file order, then line order.
#[must_use]
pub fn pictures(files: &Files, guard: &Guard) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut shown = BTreeSet::new();
    for path in files.files.keys().filter(|path| path.starts_with("notes/")) {
        let name = files.shown(path);
        let Some(text) = files.files.get(path).and_then(|bytes| look::text(&name, bytes).ok()) else { continue };
        faults.extend(wrongly_shown(files, path, text));
        shown.extend(of_note(&name, text).into_iter().map(|image| beside(path, &image.to)));
    }
    for path in files.pictures.keys() {
        faults.extend(of_file(files, guard, path, shown.contains(path)));
    }
    sort(&mut faults);
    faults
}

/// Everything that is wrong with how one note shows pictures, and with the pictures that it shows. `path` is the note's,
/// below the library's folder.
#[must_use]
pub fn pictures_of_note(files: &Files, guard: &Guard, path: &str, text: &str) -> Vec<Fault> {
    let shown: BTreeSet<String> = of_note(path, text).iter().map(|image| beside(path, &image.to)).collect();
    let of_files = shown.iter().filter(|path| files.pictures.contains_key(*path));
    let of_files = of_files.flat_map(|path| of_file(files, guard, path, true));
    wrongly_shown(files, path, text).into_iter().chain(of_files).collect()
}

/// What is wrong with how a note shows pictures.
fn wrongly_shown(files: &Files, path: &str, text: &str) -> Vec<Fault> {
    let file = files.shown(path);
    let faults = of_note(&file, text).into_iter().filter_map(|image| {
        let (message, help) = image.refused().or_else(|| missing(files, path, &image)).or_else(|| wordless(&image))?;
        Some(Fault::new(&file, text, Span::of(text, &image.place), message).with_help(help))
    });
    faults.collect()
}

/// The images of a note, with their places in its file. A note without a header has none: that is told elsewhere.
fn of_note(file: &str, text: &str) -> Vec<Image> {
    let Ok(note) = source::split(file, text) else { return Vec::new() };
    let mut found = images(&note.body);
    for image in &mut found {
        image.place = image.place.start + note.start..image.place.end + note.start;
    }
    found
}

/// The path of what lies beside a note.
fn beside(path: &str, name: &str) -> String {
    format!("{}/{name}", path.rsplit_once('/').map_or("", |(folder, _)| folder))
}

fn missing(files: &Files, path: &str, image: &Image) -> Option<(String, String)> {
    let wanted = beside(path, &image.to);
    if files.pictures.contains_key(&wanted) {
        return None;
    }
    let folder = beside(path, "");
    let there: Vec<&str> = files.pictures.keys().filter_map(|path| path.strip_prefix(&folder)).collect();
    let help = match (all_nearest(&image.to, there.iter().copied()).as_slice(), there.is_empty()) {
        (_, true) => format!("put it into `{}`", folder.trim_end_matches('/')),
        ([], _) => format!("put it into `{}`, where there are {}", folder.trim_end_matches('/'), there.join(", ")),
        (near, _) => format!("did you mean {}?", near.join(", or ")),
    };
    Some((format!("there is no picture `{}` beside this note", image.to), help))
}

fn wordless(image: &Image) -> Option<(String, String)> {
    let help = format!(
        "say between the brackets what it shows: `![Where LK2 sits]({})`; it is all that a torch or a screen reader gets",
        image.to
    );
    image.alt.is_empty().then(|| ("this picture has no words".to_owned(), help))
}

/// What is wrong with a picture itself.
fn of_file(files: &Files, guard: &Guard, path: &str, is_shown: bool) -> Vec<Fault> {
    let file = files.shown(path);
    let mut faults: Vec<Fault> = match files.picture(path) {
        Some(Err(fault)) => vec![Fault::of_file(&file, fault.message).with_help(fault.help)],
        Some(Ok(picture)) => tells(&file, &picture).into_iter().collect(),
        None => Vec::new(),
    };
    faults.extend(named(guard, &file, path));
    if !is_shown {
        let help = "show it in a note, `![What it shows](NAME)`, or take it away";
        faults.push(Fault::of_file(&file, "no note shows this picture").with_help(help).as_warning());
    }
    faults
}

/// A photograph can hold where it was taken.
fn tells(file: &str, picture: &Picture) -> Option<Fault> {
    let help = "save it without its data about place and camera: a screenshot of it has none";
    let message = "this picture holds the place where it was taken: it must not be in a shared library";
    taken_at(&picture.bytes).then(|| Fault::of_file(file, message).with_help(help))
}

/// A picture's name can be a site's. Cameras name pictures by numbers, so of those nothing is thought.
fn named(guard: &Guard, file: &str, path: &str) -> Option<Fault> {
    let words = look::stem(path).replace(['-', '_', '.'], " ");
    let leaks = guard.leaks(&words);
    let leak = leaks.iter().find(|leak| matches!(leak.what, What::Site | What::Address))?;
    let found = words.get(leak.place.clone()).unwrap_or_default();
    let message = format!("in the file's name, `{found}` is {}: it must not be in a shared library", leak.what.word());
    Some(Fault::of_file(file, message).with_help("give the file another name"))
}
