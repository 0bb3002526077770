//! Boxes to tick: each has an id that stays the same as long as its row does.

use crate::render::escape;
use crate::wording;
use pulldown_cmark::Event;
use std::collections::BTreeMap;
use std::ops::Range;

/// A box says so many characters of what it is for.
const LENGTH: usize = 40;

/// Hands out boxes.
#[derive(Debug, Default)]
pub(super) struct Ticks {
    given: BTreeMap<String, usize>,
}

impl Ticks {
    /// A box for `what` under the heading `section`.
    pub(super) fn tick(&mut self, section: &str, what: &str) -> String {
        let what: String = wording::cleaned(what).take(LENGTH).collect();
        let base = escape::slug(&format!("tick {section} {what}"));
        let count = self.given.entry(base.clone()).or_insert(0);
        *count += 1;
        let id = if *count == 1 { base } else { format!("{base}-{count}") };
        let label = escape::html(if what.is_empty() { "done" } else { &what });
        let id = escape::html(&id);
        format!("<label class=\"tick\"><input type=\"checkbox\" id=\"{id}\" aria-label=\"Done: {label}\"></label>")
    }
}

/// Where a box of our own ends that begins with this event: an unescaped `[ ]` in the Markdown.
pub(super) fn box_at(markdown: &str, event: &Event, range: &Range<usize>) -> Option<usize> {
    let Event::Text(text) = event else { return None };
    let escaped = range.start > 0 && markdown.as_bytes().get(range.start - 1) == Some(&b'\\');
    let ours = text.starts_with('[') && markdown.get(range.start..)?.starts_with("[ ]") && !escaped;
    ours.then_some(range.start + 3)
}
