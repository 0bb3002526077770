//! Sections: what stands under a heading of the second level.

use crate::render::escape;
use pulldown_cmark::{Event, HeadingLevel, Tag};

/// The id of a heading of the second level, which begins a section.
pub(super) fn section(event: &Event) -> Option<String> {
    match event {
        Event::Start(Tag::Heading { level: HeadingLevel::H2, id: Some(id), .. }) => Some(id.to_string()),
        _ => None,
    }
}

/// Each section in an element of its own, so that a sheet of paper can begin and end with it.
pub(super) fn sectioned(events: Vec<Event>) -> Vec<Event> {
    let mut out = Vec::with_capacity(events.len());
    let mut open = false;
    for event in events {
        if let Some(id) = section(&event) {
            let close = if open { "</section>\n" } else { "" };
            out.push(Event::Html(format!("{close}<section class=\"{}\">\n", escape::html(&id)).into()));
            open = true;
        }
        out.push(event);
    }
    if open {
        out.push(Event::Html("</section>\n".into()));
    }
    out
}
