//! Writes a drawing's shapes as SVG. Every word from outside goes through [`escaped`].

use super::colour;
use super::metrics::{ASCENT, DESCENT, fit};
use crate::pack::CoreName;
use crate::wording::{clean, escaped};
use std::fmt::Write as _;

/// From which side a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// It begins there.
    Start,
    /// It ends there.
    End,
}

/// The shapes of a drawing so far.
#[derive(Debug, Default)]
pub(super) struct Svg {
    body: String,
}

impl Svg {
    /// The shapes as text.
    pub(super) fn into_body(self) -> String {
        self.body
    }

    /// Opens a group with a title.
    pub(super) fn open(&mut self, title: &str) {
        let _ = write!(self.body, "<g><title>{}</title>", escaped(&clean(title)));
    }

    /// Closes a group.
    pub(super) fn close(&mut self) {
        self.body.push_str("</g>\n");
    }

    /// A text no wider than `room`, on the base line `y`; one that is cut has the whole as its title.
    pub(super) fn text(&mut self, (x, y): (i32, i32), side: Side, text: &str, room: i32) {
        self.write(x, y, side, text, room, false);
    }

    /// The same in bold.
    pub(super) fn bold(&mut self, (x, y): (i32, i32), side: Side, text: &str, room: i32) {
        self.write(x, y, side, text, room, true);
    }

    fn write(&mut self, x: i32, y: i32, side: Side, text: &str, room: i32, bold: bool) {
        let (shown, cut) = fit(text, room, bold);
        if shown.is_empty() {
            return;
        }
        let class = match (bold, side) {
            (false, Side::Start) => "",
            (false, Side::End) => " class=\"e\"",
            (true, Side::Start) => " class=\"b\"",
            (true, Side::End) => " class=\"b e\"",
        };
        let title = if cut { format!("<title>{}</title>", escaped(&clean(text))) } else { String::new() };
        let _ = write!(self.body, "<text{class} x=\"{x}\" y=\"{y}\">{title}{}</text>", escaped(&shown));
    }

    /// A plain line of the drawing.
    pub(super) fn path(&mut self, class: &str, d: &str) {
        let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
        let _ = write!(self.body, "<path{class} d=\"{d}\"/>");
    }

    /// A core, or a wire of any colour, along a path; `thin` where it was.
    pub(super) fn core(&mut self, core: Option<&CoreName>, thin: bool, d: &str) {
        let thin = if thin { " n" } else { "" };
        let codes = core.map(colour::codes).unwrap_or_default();
        let Some(base) = codes.first() else {
            return self.path(if thin.is_empty() { "t" } else { "t n" }, d);
        };
        self.path(&format!("k{thin}"), d);
        self.path(&format!("c{thin} {base}"), d);
        if let Some(stripe) = codes.get(1) {
            self.path(&format!("c{thin} s {stripe}"), d);
        }
    }

    /// A dot where lines meet.
    pub(super) fn dot(&mut self, x: i32, y: i32) {
        let _ = write!(self.body, "<circle class=\"d\" cx=\"{x}\" cy=\"{y}\" r=\"4\"/>");
    }

    /// The head of a screw.
    pub(super) fn screw(&mut self, x: i32, y: i32) {
        let _ = write!(self.body, "<circle class=\"p\" cx=\"{x}\" cy=\"{y}\" r=\"5\"/>");
        self.path("f", &format!("M{} {}l6 -6", x - 3, y + 3));
    }

    /// A box.
    pub(super) fn rect(&mut self, class: &str, (x, y): (i32, i32), (width, height): (i32, i32)) {
        let _ =
            write!(self.body, "<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/>");
    }

    /// The ring that holds the cores of one cable together (IEC 60617, conductors in a cable).
    pub(super) fn ring(&mut self, x: i32, top: i32, bottom: i32) {
        let (middle, half) = (i32::midpoint(top, bottom), (bottom - top) / 2 + 4);
        let _ = write!(self.body, "<ellipse cx=\"{x}\" cy=\"{middle}\" rx=\"6\" ry=\"{half}\"/>");
    }
}

/// The base line of a text that stands on a line at `y`, clear of it.
pub(super) fn above(y: i32) -> i32 {
    y - DESCENT - 3
}

/// The base line of a text that is centred on `y`.
pub(super) fn centred(y: i32) -> i32 {
    y + (ASCENT - DESCENT) / 2
}
