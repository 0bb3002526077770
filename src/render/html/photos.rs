//! Images of the pack's own pictures become pictures within the page, for a page is one file.

use super::footnotes::Placed;
use crate::pack::PictureFile;
use crate::render::escape;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use pulldown_cmark::{Event, Tag, TagEnd};
use std::collections::BTreeMap;

/// The pictures that a page can show, by the address of their image.
#[derive(Debug, Clone, Copy)]
pub(super) struct Photos<'a> {
    files: &'a BTreeMap<String, PictureFile>,
}

impl<'a> Photos<'a> {
    pub(super) fn new(files: &'a BTreeMap<String, PictureFile>) -> Self {
        Self { files }
    }

    /// The picture of an image; `ahead` follows the image's start.
    pub(super) fn take(self, event: &Event, ahead: &[Placed]) -> Option<String> {
        let Event::Start(Tag::Image { dest_url, .. }) = event else { return None };
        let file = self.files.get(dest_url.as_ref())?;
        Some(shown(file, &words(ahead)))
    }
}

/// The words of an image.
fn words(ahead: &[Placed]) -> String {
    let inside = ahead.iter().map(|(event, _)| event).take_while(|e| !matches!(e, Event::End(TagEnd::Image)));
    let words = inside.filter_map(|event| match event {
        Event::Text(text) | Event::Code(text) => Some(text.to_string()),
        Event::SoftBreak | Event::HardBreak => Some(" ".to_string()),
        _ => None,
    });
    words.collect()
}

/// A picture with its words under it: on a dark screen or a bad print the words are what is left.
fn shown(file: &PictureFile, words: &str) -> String {
    let words = escape::html(&escape::clean(words));
    let bytes = BASE64_STANDARD.encode(&file.bytes);
    format!(
        "<span class=\"picture\"><img src=\"data:{};base64,{bytes}\" alt=\"{words}\"><span>{words}</span></span>",
        file.media_type
    )
}
