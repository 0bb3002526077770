//! A note on a card.

use super::super::keys::words;
use super::super::sheet::Sheet;
use super::super::{parse, shape};
use super::look;
use crate::diagnostics::Span;
use crate::model::{Card, Note};
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
    Note {
        file: name.to_owned(),
        about: look::text(root, "about"),
        date: look::date(root, "date").or(named),
        by: look::text(root, "by"),
        job: look::text(root, "job"),
        how: look::word(root, "how", &words::HOW),
        text: text.body.clone(),
    }
}

/// The mark must be a terminal, a fuse or a link of the card.
fn about(sheet: &mut Sheet<'_>, node: &Node, card: Card<'_>) {
    let Some(mark) = look::own_text(node).filter(|mark| super::super::value::forbidden_mark(mark).is_none()) else {
        return;
    };
    let mut marks: Vec<&str> = Vec::new();
    if let Some(unit) = card.unit() {
        marks.extend(unit.terminals.iter().map(|t| t.mark.as_str()));
        marks.extend(unit.fuses.iter().map(|f| f.mark.as_str()));
        marks.extend(unit.links.iter().map(|l| l.mark.as_str()));
    }
    if !marks.contains(&mark) {
        sheet.unknown(node.span, mark, "mark of this card", &marks);
    }
}
