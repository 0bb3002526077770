//! Footnotes: taken out of the flow, to be set where they are pointed to.

use crate::render::escape;
use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd, html};
use std::collections::BTreeMap;
use std::ops::Range;

/// A pack's Markdown has about so many bytes for each event.
const BYTES: usize = 6;

/// An event with its place in the Markdown.
pub(super) type Placed<'a> = (Event<'a>, Range<usize>);

/// Footnotes by label.
pub(super) type Notes<'a> = BTreeMap<String, Vec<Event<'a>>>;

/// The events of `markdown`, raw HTML turned into text, and its footnotes apart.
pub(super) fn split(markdown: &str) -> (Vec<Placed<'_>>, Notes<'_>) {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_TASKLISTS;
    let mut events = Vec::with_capacity(markdown.len() / BYTES);
    let mut notes: Notes = BTreeMap::new();
    let mut inside: Option<(String, Vec<Event>)> = None;
    for (event, range) in Parser::new_ext(markdown, options).into_offset_iter() {
        match (event, &mut inside) {
            (Event::Start(Tag::FootnoteDefinition(label)), inside) => {
                keep(&mut notes, inside.replace((label.to_string(), Vec::new())));
            }
            (Event::End(TagEnd::FootnoteDefinition), inside) => keep(&mut notes, inside.take()),
            (event, Some((_, note))) => note.push(words_of_image(plain(event))),
            (event, None) => events.push((plain(event), range)),
        }
    }
    (events, notes)
}

/// Puts a footnote that has ended to what its label has.
fn keep<'a>(notes: &mut Notes<'a>, ended: Option<(String, Vec<Event<'a>>)>) {
    if let Some((label, events)) = ended.filter(|(_, events)| !events.is_empty()) {
        notes.entry(label).or_default().extend(events);
    }
}

/// Raw HTML as text.
fn plain(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Html(html) | Event::InlineHtml(html) => Event::Text(html),
        Event::Start(Tag::HtmlBlock) => Event::Start(Tag::Paragraph),
        Event::End(TagEnd::HtmlBlock) => Event::End(TagEnd::Paragraph),
        other => other,
    }
}

/// An image as the words that stand for it.
pub(super) fn words_of_image(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Start(Tag::Image { .. }) => Event::Start(Tag::Emphasis),
        Event::End(TagEnd::Image) => Event::End(TagEnd::Emphasis),
        other => other,
    }
}

/// An opening part that shows how a number was worked out.
pub(super) fn details(note: &[Event]) -> String {
    let summary = escape::html(&first_strong(note));
    let mut body = String::new();
    let kept = note.iter().filter(|e| !is_link(e) && !matches!(e, Event::FootnoteReference(_)));
    html::push_html(&mut body, kept.cloned());
    format!("<details><summary>{summary}</summary>{body}</details>")
}

/// Links have no place in a working.
fn is_link(event: &Event) -> bool {
    matches!(event, Event::Start(Tag::Link { .. }) | Event::End(TagEnd::Link))
}

/// The words of the first strong part.
fn first_strong(note: &[Event]) -> String {
    let mut words = String::new();
    let mut inside = false;
    for event in note {
        match event {
            Event::Start(Tag::Strong) => inside = true,
            Event::End(TagEnd::Strong) => break,
            Event::Text(text) | Event::Code(text) if inside => words.push_str(text),
            _ => {}
        }
    }
    if words.is_empty() { "How it was worked out".into() } else { words }
}
