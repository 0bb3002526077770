//! Drawings of the wiring as SVG: what is connected to what comes from the pack, and this room gives it places and
//! right-angled ways on a grid of whole units. Symbols are those of IEC 60617, colour codes those of IEC 60757. Nothing
//! here is measured in a browser: a text's room is worked from widths that hold in any plain face, so no text meets
//! another and no line runs through one.

mod channel;
mod colour;
mod far;
mod job;
mod metrics;
mod order;
mod row;
mod run;
mod strip;
mod style;
mod svg;
mod wires;
mod zone;

use crate::pack::drawing::DrawingView;
use crate::wording::{clean, escaped};

pub use metrics::{ASCENT, DESCENT, FONT, width as text_width};
pub use style::style;

/// A drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawing {
    /// Its name in the pack: that of its file, and the head of its ids in a page.
    pub key: String,
    /// What stands under it.
    pub caption: String,
    /// What it shows, in words.
    pub alt: String,
    /// Its width; a unit is a pixel on screens.
    pub width: i32,
    /// Its height.
    pub height: i32,
    body: String,
}

/// All drawings of a pack.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Pictures {
    /// The whole job, page by page.
    pub job: Vec<Drawing>,
    /// Each cable's far end, in survey order.
    pub ends: Vec<Drawing>,
    /// The loops in their order.
    pub runs: Vec<Drawing>,
    /// How often lines cross in the drawings of the job.
    pub crossings: usize,
    /// How often they would with the cables in survey order.
    pub crossings_in_survey_order: usize,
}

/// Draws what is connected to what.
#[must_use]
pub fn pictures(view: &DrawingView) -> Pictures {
    let (job, crossings, crossings_in_survey_order) = job::job(&view.job);
    let ends = view.ends.iter().zip(1..).map(|(end, at)| far::far(end, format!("far-end-{at}")));
    let runs = view.runs.iter().zip(1..).flat_map(|(run, at)| run::run(run, &format!("loop-{at}")));
    Pictures { job, ends: ends.collect(), runs: runs.collect(), crossings, crossings_in_survey_order }
}

impl Pictures {
    /// Every drawing.
    pub fn all(&self) -> impl Iterator<Item = &Drawing> {
        self.job.iter().chain(&self.runs).chain(&self.ends)
    }
}

impl Drawing {
    /// The drawing for a page that has [`style`] and sets its ink and paper.
    #[must_use]
    pub fn inline(&self) -> String {
        let (width, height) = (self.width, self.height);
        let size = format!("width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\"");
        format!("<svg class=\"wiring\" {size} {}>{}\n{}</svg>", self.named(), self.told(), self.body)
    }

    /// The drawing as a file of its own, black on white.
    #[must_use]
    pub fn file(&self) -> String {
        let (width, height) = (self.width, self.height);
        let size = format!("width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\"");
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"wiring\" {size} {}>{}\n<style>\n{}</style>\n\
             <rect width=\"{width}\" height=\"{height}\" style=\"fill:#fff;stroke:none\"/>\n{}</svg>\n",
            self.named(),
            self.told(),
            style::on_white(),
            self.body
        )
    }

    /// How a screen reader finds the words.
    fn named(&self) -> String {
        format!("role=\"img\" aria-labelledby=\"{0}-title {0}-says\"", self.key)
    }

    /// The words for who can't see it.
    fn told(&self) -> String {
        let (title, says) = (escaped(&clean(&self.caption)), escaped(&clean(&self.alt)));
        format!("<title id=\"{0}-title\">{title}</title><desc id=\"{0}-says\">{says}</desc>", self.key)
    }
}
