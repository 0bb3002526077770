//! Images of the pack's own pictures become pictures within the page, for a page is one file.

use super::footnotes::Placed;
use crate::pack::PictureFile;
use crate::render::escape;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use pulldown_cmark::{Event, Tag, TagEnd};
use std::collections::BTreeMap;

/// The pictures that a page can show: by the address of its image, the attribute that shows it.
pub(in crate::render) type Shown = BTreeMap<String, String>;

/// Pictures that stand in the page where they are shown.
pub(in crate::render) fn within(files: &BTreeMap<String, PictureFile>) -> Shown {
    files.iter().map(|(address, file)| (address.clone(), format!("src=\"{}\"", url(file)))).collect()
}

/// The address of a picture that is a part of the page.
pub(in crate::render) fn url(file: &PictureFile) -> String {
    format!("data:{};base64,{}", file.media_type, BASE64_STANDARD.encode(&file.bytes))
}

/// Puts the pictures in the places of their images.
#[derive(Debug, Clone, Copy)]
pub(super) struct Photos<'a> {
    shown: &'a Shown,
}

impl<'a> Photos<'a> {
    pub(super) fn new(shown: &'a Shown) -> Self {
        Self { shown }
    }

    /// The picture of an image; `ahead` follows the image's start.
    pub(super) fn take(self, event: &Event, ahead: &[Placed]) -> Option<String> {
        let Event::Start(Tag::Image { dest_url, .. }) = event else { return None };
        Some(picture(self.shown.get(dest_url.as_ref())?, &words(ahead)))
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
fn picture(attribute: &str, words: &str) -> String {
    let words = escape::html(&escape::clean(words));
    format!("<span class=\"picture\"><img {attribute} alt=\"{words}\"><span>{words}</span></span>")
}
