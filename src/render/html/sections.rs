//! Sections: what stands under a heading of the second level, and the parts of one, under those of the third. Each has an
//! element of its own, so that a sheet of paper can begin with it or hold it together.

use crate::render::escape;
use pulldown_cmark::{Event, HeadingLevel, Tag};

/// The id of a heading that begins a section.
pub(super) fn section<'a>(event: &'a Event) -> Option<&'a str> {
    heading(event, HeadingLevel::H2)
}

fn heading<'a>(event: &'a Event, wanted: HeadingLevel) -> Option<&'a str> {
    match event {
        Event::Start(Tag::Heading { level, id: Some(id), .. }) if *level == wanted => Some(id),
        _ => None,
    }
}

/// Each section in an element of its own, each part of one too.
pub(super) fn sectioned(events: Vec<Event>) -> Vec<Event> {
    let mut out = Vec::with_capacity(events.len() + 64);
    let (mut in_section, mut in_part) = (false, false);
    for event in events {
        let begins_section = section(&event).map(|id| format!("<section class=\"{}\">\n", escape::html(id)));
        let begins_part = heading(&event, HeadingLevel::H3).map(|_| "<div class=\"part\">\n".to_string());
        let begins = begins_section.as_ref().or(begins_part.as_ref());
        if begins.is_some() && in_part {
            out.push(raw("</div>\n"));
            in_part = false;
        }
        if begins_section.is_some() && in_section {
            out.push(raw("</section>\n"));
        }
        in_section |= begins_section.is_some();
        in_part |= begins_part.is_some();
        out.extend(begins.map(|html| raw(html)));
        out.push(event);
    }
    if in_part {
        out.push(raw("</div>\n"));
    }
    if in_section {
        out.push(raw("</section>\n"));
    }
    out
}

/// Our own HTML.
fn raw<'a>(html: &str) -> Event<'a> {
    Event::Html(html.to_string().into())
}
