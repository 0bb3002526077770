//! Writes a drawing's shapes as SVG. Every word from outside goes through [`escaped`].

use super::colour;
use super::metrics::{ASCENT, DESCENT, fit};
use crate::pack::CoreName;
use crate::wording::{clean, escaped};

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
        self.put(&["<g><title>", &escaped(&clean(title)), "</title>"]);
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
        self.put(&["<text", class]);
        self.numbers(&[(" x=\"", x), ("\" y=\"", y)]);
        self.put(&["\">"]);
        if cut {
            self.put(&["<title>", &escaped(&clean(text)), "</title>"]);
        }
        self.put(&[&escaped(&shown), "</text>"]);
    }

    /// A plain line of the drawing.
    pub(super) fn path(&mut self, class: &str, d: &str) {
        if class.is_empty() {
            self.put(&["<path d=\"", d, "\"/>"]);
        } else {
            self.put(&["<path class=\"", class, "\" d=\"", d, "\"/>"]);
        }
    }

    /// A core, or a wire of any colour, along a path; `thin` where it was.
    pub(super) fn core(&mut self, core: Option<&CoreName>, thin: bool, d: &str) {
        let mut codes = core.into_iter().flat_map(colour::codes);
        let Some(base) = codes.next() else {
            return self.path(if thin { "t n" } else { "t" }, d);
        };
        self.path(if thin { "k n" } else { "k" }, d);
        let colour = if thin { "c n " } else { "c " };
        self.put(&["<path class=\"", colour, base, "\" d=\"", d, "\"/>"]);
        if let Some(stripe) = codes.next() {
            self.put(&["<path class=\"", colour, "s ", stripe, "\" d=\"", d, "\"/>"]);
        }
    }

    /// A dot where lines meet.
    pub(super) fn dot(&mut self, x: i32, y: i32) {
        self.numbers(&[("<circle class=\"d\" cx=\"", x), ("\" cy=\"", y)]);
        self.put(&["\" r=\"4\"/>"]);
    }

    /// The head of a screw.
    pub(super) fn screw(&mut self, x: i32, y: i32) {
        self.numbers(&[("<circle class=\"p\" cx=\"", x), ("\" cy=\"", y)]);
        self.numbers(&[("\" r=\"5\"/><path class=\"f\" d=\"M", x - 3), (" ", y + 3)]);
        self.put(&["l6 -6\"/>"]);
    }

    /// A box.
    pub(super) fn rect(&mut self, class: &str, (x, y): (i32, i32), (width, height): (i32, i32)) {
        self.put(&["<rect class=\"", class]);
        self.numbers(&[("\" x=\"", x), ("\" y=\"", y), ("\" width=\"", width), ("\" height=\"", height)]);
        self.put(&["\"/>"]);
    }

    /// The ring that holds the cores of one cable together (IEC 60617, conductors in a cable).
    pub(super) fn ring(&mut self, x: i32, top: i32, bottom: i32) {
        let (middle, half) = (i32::midpoint(top, bottom), (bottom - top) / 2 + 4);
        self.numbers(&[("<ellipse cx=\"", x), ("\" cy=\"", middle), ("\" rx=\"6\" ry=\"", half)]);
        self.put(&["\"/>"]);
    }

    /// Puts texts down as they are.
    fn put(&mut self, parts: &[&str]) {
        for part in parts {
            self.body.push_str(part);
        }
    }

    /// Puts numbers down, each after its text. A drawing holds thousands, so they don't go through the formatter.
    fn numbers(&mut self, parts: &[(&str, i32)]) {
        for (before, value) in parts {
            self.body.push_str(before);
            if *value < 0 {
                self.body.push('-');
            }
            digits(&mut self.body, value.unsigned_abs());
        }
    }
}

fn digits(out: &mut String, value: u32) {
    if value > 9 {
        digits(out, value / 10);
    }
    out.extend(char::from_digit(value % 10, 10));
}

/// The base line of a text that stands on a line at `y`, clear of it.
pub(super) fn above(y: i32) -> i32 {
    y - DESCENT - 3
}

/// The base line of a text that is centred on `y`.
pub(super) fn centred(y: i32) -> i32 {
    y + (ASCENT - DESCENT) / 2
}
