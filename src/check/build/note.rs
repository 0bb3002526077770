//! A note on a card.

use super::super::images::images;
use super::super::keys::words;
use super::super::sheet::Sheet;
use super::super::{parse, shape};
use super::look;
use crate::diagnostics::Span;
use crate::model::{Card, How, Note, NotePicture};
use crate::source::{Node, NoteText};

/// A note. `card` is the card it is about, where that is faultless.
pub(crate) fn note(sheet: &mut Sheet<'_>, name: &str, text: &NoteText, card: Option<Card<'_>>) -> Note {
    let root = &text.header;
    let named = name.get(..10).and_then(parse::date);
    if named.is_none() || !name.get(10..).is_some_and(|rest| rest.starts_with('-')) {
        let help = "name it by its date and a few words: `2026-11-03-what-it-says.md`";
        sheet.fault(Span::default(), "a note's file name begins with its date", help);
    }
    if let (Some(named), Some(date), Some(node)) = (named, look::date(root, "date"), root.get("date"))
        && named != date
    {
        sheet.fault(node.span, format!("the file's name says {named}"), "let the name and `date` say the same day");
    }
    if text.body.is_empty() {
        sheet.fault(shape::place(root), "this note says nothing", "write the note below the header's second `---`");
    }
    if let (Some(card), Some(node)) = (card, root.get("about")) {
        about(sheet, node, card);
    }
    if let Some(node) = root.get("agrees") {
        agrees(sheet, root, node);
    }
    Note {
        file: name.to_owned(),
        about: look::text(root, "about"),
        date: look::date(root, "date").or(named),
        by: look::text(root, "by"),
        job: look::text(root, "job"),
        how: look::word(root, "how", &words::HOW),
        agrees: look::flag(root, "agrees"),
        pictures: pictures(&text.body),
        text: text.body.clone(),
    }
}

/// The images that can be pictures beside the note. The others stay the text that they are.
fn pictures(text: &str) -> Vec<NotePicture> {
    let can_be = images(text).into_iter().filter(|image| image.refused().is_none());
    can_be.map(|image| NotePicture { file: image.to, alt: image.alt, place: image.place }).collect()
}

/// Only a measurement of something that the card says can agree with it.
fn agrees(sheet: &mut Sheet<'_>, root: &Node, node: &Node) {
    if look::word(root, "how", &words::HOW) != Some(How::Measured) {
        let help = "write `how: measured` when a meter was on it, else leave `agrees` out";
        sheet.fault(node.span, "only what was measured agrees or disagrees", help);
    }
    if root.get("about").is_none() {
        let help = "name what was measured, `about: STB`, or leave `agrees` out";
        sheet.fault(node.span, "`agrees` does not say about what", help);
    }
}

/// The mark must be a terminal, a fuse or a link of the card.
fn about(sheet: &mut Sheet<'_>, node: &Node, card: Card<'_>) {
    let Some(mark) = look::own_text(node).filter(|mark| super::super::value::forbidden_mark(mark).is_none()) else {
        return;
    };
    let marks = card.marks();
    if !marks.contains(&mark) {
        sheet.unknown(node.span, mark, "mark of this card", &marks);
    }
}
