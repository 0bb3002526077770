//! The images in a note's Markdown, and which of them can be pictures that lie beside it.

use crate::source::PictureKind;
use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use std::ops::Range;

/// An image as a note writes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Image {
    /// What it points to.
    pub(super) to: String,
    /// The words that stand for it.
    pub(super) alt: String,
    /// Where it stands in the text, in bytes.
    pub(super) place: Range<usize>,
}

/// The images of a text, in order; one within another's words is part of those.
pub(super) fn images(text: &str) -> Vec<Image> {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_TASKLISTS;
    let mut images: Vec<Image> = Vec::new();
    // However an image is written, it begins so; most notes have none.
    if !text.contains("![") {
        return images;
    }
    let mut depth = 0;
    for (event, place) in Parser::new_ext(text, options).into_offset_iter() {
        match event {
            Event::Start(Tag::Image { dest_url, .. }) => {
                if depth == 0 {
                    images.push(Image { to: dest_url.to_string(), alt: String::new(), place });
                }
                depth += 1;
            }
            Event::End(TagEnd::Image) => depth -= 1,
            Event::Text(words) | Event::Code(words) if depth > 0 => {
                images.last_mut().into_iter().for_each(|image| image.alt.push_str(&words));
            }
            Event::SoftBreak | Event::HardBreak if depth > 0 => {
                images.last_mut().into_iter().for_each(|image| image.alt.push(' '));
            }
            _ => {}
        }
    }
    for image in &mut images {
        image.alt = image.alt.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    images
}

impl Image {
    /// What keeps it from being a picture beside the note, and what to write instead.
    pub(super) fn refused(&self) -> Option<(String, String)> {
        let to = self.to.as_str();
        let beside = "put the picture into the note's folder and write its name alone: `![What it shows](lid.png)`";
        let refuse = |message: &str, help: &str| Some((message.to_owned(), help.to_owned()));
        if to.is_empty() {
            return refuse("this picture has no file", beside);
        }
        if to.contains(['/', '\\', ':']) || to.contains("..") {
            return refuse("a picture lies beside its note: no folder, no address", beside);
        }
        let is_plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
        if !to.chars().all(is_plain) || !to.starts_with(|c: char| c.is_ascii_alphanumeric()) {
            return refuse(
                "a picture's name is made of plain letters, digits, hyphens, underscores and dots",
                "give the file another name, `strobe-strip.jpg` for example",
            );
        }
        if PictureKind::of_name(to).is_none() {
            let help = format!("save it as one whose name ends in {}", crate::source::PICTURE_ENDINGS);
            return refuse("pictures of this kind are not shown", &help);
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn images_are_found_wherever_markdown_has_them() {
        let text = "See ![the *lid*](lid.png).\n\n| a | b |\n|---|---|\n| ![x](x.jpg \"t\") | `![no](no.png)` |\n\n![y\nz][r][^1]\n\n[r]: y.webp\n\n[^1]: ![n](n.png)";
        let found: Vec<_> = images(text).into_iter().map(|i| (i.to, i.alt, text[i.place].to_owned())).collect();
        let is = |to: &str, alt: &str, text: &str| (to.to_owned(), alt.to_owned(), text.to_owned());
        let due = [
            is("lid.png", "the lid", "![the *lid*](lid.png)"),
            is("x.jpg", "x", "![x](x.jpg \"t\")"),
            is("y.webp", "y z", "![y\nz][r]"),
            is("n.png", "n", "![n](n.png)"),
        ];
        assert_eq!(found, due);
    }

    #[test]
    fn only_a_plain_name_can_be_a_picture_beside_its_note() {
        let refused = |to: &str| Image { to: to.into(), alt: String::new(), place: 0..0 }.refused().is_some();
        for to in ["lid.png", "IMG_2041.JPG", "a.b-c.webp"] {
            assert!(!refused(to), "{to}");
        }
        for to in [
            "",
            "../lid.png",
            "a/lid.png",
            "/lid.png",
            "a\\lid.png",
            "https://x/lid.png",
            "data:image/png;base64,",
            "C:lid.png",
            "lid..png",
            ".lid.png",
            "-lid.png",
            "lid.svg",
            "lid.gif",
            "lid",
            "a lid.png",
            "lïd.png",
        ] {
            assert!(refused(to), "{to}");
        }
    }
}
