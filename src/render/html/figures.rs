//! Images of the pack's own drawings become the drawings, each once; any other image stays the words that stand for it.

use super::footnotes::Placed;
use crate::draw::{Drawing, Pictures};
use crate::render::escape;
use pulldown_cmark::{Event, Tag, TagEnd};
use std::collections::BTreeMap;

/// The drawings that a page has not shown yet, by the address of their image.
#[derive(Debug, Default)]
pub(super) struct Figures<'a> {
    left: BTreeMap<String, &'a Drawing>,
}

impl<'a> Figures<'a> {
    /// Every drawing of a pack.
    pub(super) fn new(pictures: &'a Pictures) -> Self {
        Self { left: pictures.all().map(|d| (crate::render::pictures::path(d), d)).collect() }
    }

    /// The drawing of a paragraph that is nothing but its image; `ahead` follows the paragraph's start.
    pub(super) fn take(&mut self, ahead: &[Placed]) -> Option<String> {
        let Some((Event::Start(Tag::Image { dest_url, .. }), _)) = ahead.first() else { return None };
        let alone = ahead.iter().find(|(e, _)| matches!(e, Event::End(TagEnd::Image | TagEnd::Paragraph)));
        let end = ahead.iter().position(|(e, _)| matches!(e, Event::End(TagEnd::Image)))?;
        let closes = matches!(ahead.get(end + 1), Some((Event::End(TagEnd::Paragraph), _)));
        if alone.is_none() || !closes {
            return None;
        }
        self.left.remove(dest_url.as_ref()).map(shown)
    }
}

/// A drawing in a box in which it scrolls, which the keyboard reaches too, with its words under it.
fn shown(drawing: &Drawing) -> String {
    let caption = escape::html(&escape::clean(&drawing.caption));
    let open = "<figure class=\"drawing\"><div class=\"drawn\" tabindex=\"0\">";
    format!("{open}{}</div><figcaption>{caption}</figcaption></figure>\n", drawing.inline())
}
