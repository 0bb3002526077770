//! Drawings in a pack's Markdown: each is a file beside it, shown as an image with its words.

use crate::draw::{Drawing, Pictures};
use serde::Serialize;

/// The folder of a pack's drawings.
pub const DRAWINGS: &str = "drawings";
/// What a drawing's file is.
pub const DRAWING_TYPE: &str = "image/svg+xml";

/// A drawing's file, from the pack's folder.
pub(super) fn path(drawing: &Drawing) -> String {
    format!("{DRAWINGS}/{}.svg", drawing.key)
}

/// What the templates know of the drawings.
#[derive(Serialize)]
pub(super) struct Named<'a> {
    job: Vec<Image<'a>>,
    runs: Vec<Image<'a>>,
    ends: Vec<Image<'a>>,
}

/// A drawing as an image.
#[derive(Serialize)]
struct Image<'a> {
    src: String,
    alt: &'a str,
    caption: &'a str,
}

impl<'a> Named<'a> {
    pub(super) fn new(pictures: &'a Pictures) -> Self {
        let images = |list: &'a [Drawing]| {
            list.iter().map(|d| Image { src: path(d), alt: &d.alt, caption: &d.caption }).collect()
        };
        Self { job: images(&pictures.job), runs: images(&pictures.runs), ends: images(&pictures.ends) }
    }
}
