//! A cable's far end: its cores at the left, the devices' screws at the right, what is fitted on them and what is inside.

use super::Drawing;
use super::colour::beside;
use super::metrics::{FONT, wrapped};
use super::strip::{Facing, Placed, ROW, head};
use super::svg::{Side, Svg, above};
use super::wires::{Across, Way, Wire};
use super::zone::{Beside, Zone};
use crate::pack::drawing::{DeviceBox, FarEnd, FarLine};

const MARGIN: i32 = 10;
/// The ring around the cores, and how far a core's row reaches.
const RING: i32 = 16;
const CODE: i32 = 28;
const CODE_ROOM: i32 = 38;
const ACT: i32 = 70;
const ACT_ROOM: i32 = 176;
const ROW_ENDS: i32 = 250;
/// The narrowest a device's box may be, for the words in it.
const BOX: i32 = 250;
/// The most lines that a device's words take.
const WORDS: usize = 3;

/// The far end of a cable, as the drawing with this key.
pub(super) fn far(end: &FarEnd, key: String) -> Drawing {
    let mut svg = Svg::default();
    let layout = Layout::new(end);
    let width = layout.width();
    svg.bold((MARGIN, 16), Side::Start, &format!("{} {}, far end", end.cable, end.place), width - 2 * MARGIN);
    layout.draw(&mut svg);
    let mut y = layout.bottom + 2;
    for remark in end.remarks.iter().flat_map(|r| wrapped(r, width - 2 * MARGIN, 2)) {
        y += FONT + 4;
        svg.text((MARGIN, y), Side::Start, &remark, width - 2 * MARGIN);
    }
    let devices: Vec<&str> = end.devices.iter().map(|d| d.name.as_str()).collect();
    let there = if devices.is_empty() { "no device".to_string() } else { crate::wording::listed(&devices) };
    Drawing {
        key,
        caption: format!("{}, far end: {there}", end.cable),
        alt: format!(
            "The far end of {} at {}: each core with its code, and the screw of {there} that it lands on; what is \
             fitted there; which cores are insulated.",
            end.cable, end.place
        ),
        width,
        height: y + 8,
        body: svg.into_body(),
    }
}

/// Where everything of a far end is.
struct Layout<'a> {
    end: &'a FarEnd,
    strip: Placed<'a>,
    way: Way<'a>,
    fitted: Zone<'a>,
    inside: Zone<'a>,
    /// For each device, the top of its box and its words.
    boxes: Vec<(&'a DeviceBox, i32, Vec<String>)>,
    bottom: i32,
}

impl<'a> Layout<'a> {
    fn new(end: &'a FarEnd) -> Self {
        let mut heights = vec![None; end.strip.screws.len()];
        let mut boxes = Vec::new();
        let mut y = ROW;
        for device in &end.devices {
            let words: Vec<String> = device.what.iter().flat_map(|w| wrapped(w, BOX - 12, WORDS)).collect();
            boxes.push((device, y, words.clone()));
            y += ROW * (1 + i32::try_from(words.len()).unwrap_or(0));
            for height in heights.iter_mut().skip(device.first).take(device.count) {
                *height = Some(y + ROW / 2);
                y += ROW;
            }
            y += ROW;
        }
        let rows = i32::try_from(end.lines.len()).unwrap_or(0);
        let strip = Placed::at(&end.strip, heights, y);
        let wires = end.lines.iter().zip(0..).map(|(line, at)| Wire {
            core: Some(&line.core),
            y: row(at),
            screws: &line.lands,
        });
        let way = Way::new(wires.collect(), &strip, Facing::Left);
        let parts = |inside: bool| end.strip.parts.iter().filter(move |p| p.inside == inside);
        Self {
            fitted: Zone::new(&strip, parts(false)),
            inside: Zone::new(&strip, parts(true)),
            end,
            bottom: y.max(row(rows)),
            strip,
            way,
            boxes,
        }
    }

    fn strip_x(&self) -> i32 {
        MARGIN + ROW_ENDS + self.way.width() + self.fitted.width
    }

    /// How wide the boxes of the devices are.
    fn box_width(&self) -> i32 {
        (self.strip.width() + self.inside.width + 6).max(BOX)
    }

    fn width(&self) -> i32 {
        if self.boxes.is_empty() { MARGIN + ROW_ENDS + 60 } else { self.strip_x() + self.box_width() + MARGIN }
    }

    fn draw(&self, svg: &mut Svg) {
        let x = self.strip_x();
        let edge = MARGIN + ROW_ENDS;
        let across = Across { rows: MARGIN + RING, channel: edge, screws: head(x, self.strip.width(), Facing::Left) };
        for (device, top, words) in &self.boxes {
            self.device(svg, device, *top, words);
        }
        self.strip.cells(svg, x);
        let fitted = Beside { edge: across.screws, base: x, away: -1 };
        let inner = x + self.strip.width();
        let inside = Beside { edge: inner, base: inner, away: 1 };
        self.fitted.draw(svg, fitted);
        self.inside.draw(svg, inside);
        self.way.shared(svg, across);
        for (at, line) in self.end.lines.iter().enumerate() {
            let y = row(i32::try_from(at).unwrap_or(0));
            svg.open(&line.title);
            if line.lands.is_empty() {
                unused(svg, line, y);
            }
            self.way.one(svg, at, across);
            let base = above(y);
            svg.bold((MARGIN + CODE, base), Side::Start, beside(Some(&line.core)), CODE_ROOM);
            svg.text((MARGIN + ACT, base), Side::Start, &line.act, ACT_ROOM);
            svg.close();
        }
        self.fitted.dots(svg, fitted, |screw| self.way.lands_on(screw));
        self.inside.dots(svg, inside, |_| false);
        self.strip.marks(svg, x, Facing::Left);
        let rows = i32::try_from(self.end.lines.len()).unwrap_or(0);
        if rows > 0 {
            svg.ring(MARGIN + RING, row(0), row(rows - 1));
        }
    }

    fn device(&self, svg: &mut Svg, device: &DeviceBox, top: i32, words: &[String]) {
        let x = self.strip_x();
        let lines = i32::try_from(words.len()).unwrap_or(0);
        let screws = i32::try_from(device.count).unwrap_or(0);
        svg.rect("", (x, top), (self.box_width(), ROW * (1 + lines + screws) + 8));
        svg.bold((x + 6, top + 15), Side::Start, &device.name, self.box_width() - 12);
        let mut y = top + 15;
        for line in words {
            y += ROW - 2;
            svg.text((x + 6, y), Side::Start, line, self.box_width() - 12);
        }
    }
}

/// The height of a core's row.
fn row(at: i32) -> i32 {
    2 * ROW + at * ROW
}

/// A core that lands on nothing: a stub with a sleeve, or one that nobody has decided about.
fn unused(svg: &mut Svg, line: &FarLine, y: i32) {
    let ends = MARGIN + ROW_ENDS + 2;
    svg.core(Some(&line.core), false, &format!("M{} {y}H{}", MARGIN + RING, ends + 4));
    svg.rect(if line.left { "g" } else { "d" }, (ends, y - 4), (7, 8));
}
