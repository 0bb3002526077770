//! What is between the screws of a strip, beside it: wires, resistors and contacts (symbols of IEC 60617), each on an
//! upright of its own with its value beside it.

use super::metrics::width;
use super::strip::{Placed, ROW};
use super::svg::{Side, Svg, centred};
use crate::pack::drawing::{Part, PartKind};

/// From a slot's near edge to the upright.
const TO_UPRIGHT: i32 = 11;
/// From the upright to the label.
const TO_LABEL: i32 = 9;
/// After a slot.
const AFTER: i32 = 5;
/// The widest label.
const WIDEST: i32 = 96;

/// Where parts are drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beside {
    /// Where their wires begin.
    pub(super) edge: i32,
    /// Where the first slot begins.
    pub(super) base: i32,
    /// 1 to the right of the strip, -1 to the left.
    pub(super) away: i32,
}

/// The parts beside a strip, each in its slot.
#[derive(Debug)]
pub(super) struct Zone<'a> {
    parts: Vec<Laid<'a>>,
    /// For each slot, where it begins, counted from the strip.
    starts: Vec<i32>,
    /// How wide it all is.
    pub(super) width: i32,
}

/// A part with its heights.
#[derive(Debug)]
struct Laid<'a> {
    part: &'a Part,
    from: i32,
    to: i32,
    slot: usize,
}

impl Laid<'_> {
    fn top(&self) -> i32 {
        self.from.min(self.to)
    }

    fn bottom(&self) -> i32 {
        self.from.max(self.to)
    }

    fn ends_at(&self, y: i32) -> bool {
        self.from == y || (self.to == y && self.part.to.is_some())
    }
}

impl<'a> Zone<'a> {
    /// The parts of which both ends are shown; the shortest are nearest to the strip.
    pub(super) fn new(strip: &Placed, parts: impl Iterator<Item = &'a Part>) -> Self {
        let mut laid: Vec<Laid> = parts.filter_map(|part| lay(strip, part)).collect();
        laid.sort_by_key(|l| (l.bottom() - l.top(), l.top()));
        let mut slots = 0;
        for at in 0..laid.len() {
            let (done, rest) = laid.split_at_mut(at);
            let Some(own) = rest.first_mut() else { break };
            let free = |slot: &usize| {
                !done.iter().any(|l| l.slot == *slot && l.top() < own.bottom() && own.top() < l.bottom())
            };
            own.slot = (0..=slots).find(free).unwrap_or(slots);
            slots = slots.max(own.slot + 1);
        }
        let mut starts = Vec::new();
        let mut sum = 0;
        for slot in 0..slots {
            starts.push(sum);
            let labels = laid.iter().filter(|l| l.slot == slot).map(|l| label_width(l.part));
            sum += TO_UPRIGHT + labels.max().unwrap_or(0) + AFTER;
        }
        Self { parts: laid, starts, width: sum }
    }

    /// The parts that are drawn.
    pub(super) fn parts(&self) -> impl Iterator<Item = &Part> {
        self.parts.iter().map(|laid| laid.part)
    }

    /// Draws the parts.
    pub(super) fn draw(&self, svg: &mut Svg, beside: Beside) {
        for laid in &self.parts {
            let x = self.upright(laid, beside);
            one(svg, laid, x, beside.edge);
            let side = if beside.away > 0 { Side::Start } else { Side::End };
            let at = (x + beside.away * TO_LABEL, centred(laid.symbol()));
            svg.text(at, side, &laid.part.label, label_width(laid.part));
        }
    }

    /// Draws the dots where a part meets another line, over the cores. `meets` says whether a screw has a line of its
    /// own on this side.
    pub(super) fn dots(&self, svg: &mut Svg, beside: Beside, meets: impl Fn(usize) -> bool) {
        for laid in &self.parts {
            let x = self.upright(laid, beside);
            let ends = [(Some(laid.part.from), laid.from), (laid.part.to, laid.to)];
            for (screw, y) in ends.into_iter().filter_map(|(screw, y)| Some((screw?, y))) {
                let more = self.parts.iter().any(|l| !std::ptr::eq(l, laid) && l.slot >= laid.slot && l.ends_at(y));
                if more || meets(screw) {
                    svg.dot(x, y);
                }
            }
        }
    }

    fn upright(&self, laid: &Laid, beside: Beside) -> i32 {
        beside.base + beside.away * (self.starts.get(laid.slot).copied().unwrap_or(0) + TO_UPRIGHT)
    }
}

/// Draws a part with its upright at `x` and its wires from `edge`.
fn one(svg: &mut Svg, laid: &Laid, x: i32, edge: i32) {
    let (from, to) = (laid.from, laid.to);
    let middle = laid.symbol();
    if laid.part.to.is_none() {
        return svg.path("", &format!("M{edge} {from}H{x}V{}", middle - 7));
    }
    let (top, bottom) = (laid.top(), laid.bottom());
    let leads = |svg: &mut Svg, half: i32| {
        svg.path("", &format!("M{edge} {top}H{x}V{}M{x} {}V{bottom}H{edge}", middle - half, middle + half));
    };
    match laid.part.kind {
        PartKind::Link => svg.path("", &format!("M{edge} {from}H{x}V{to}H{edge}")),
        PartKind::Resistor => {
            leads(svg, 6);
            svg.rect("", (x - 4, middle - 6), (8, 12));
        }
        // The moving part of a make contact stands off the fixed one; that of a break contact lies across it.
        PartKind::Make => {
            leads(svg, 6);
            svg.path("", &format!("M{x} {}l-6 -11", middle + 6));
        }
        PartKind::Break => {
            leads(svg, 6);
            svg.path("", &format!("M{x} {}l6 -13M{x} {}h7", middle + 6, middle - 6));
        }
        PartKind::NotKnown => {
            leads(svg, 7);
            svg.rect("g", (x - 5, middle - 7), (10, 14));
        }
    }
}

impl Laid<'_> {
    /// The middle of the symbol: between the screw where the part begins and its neighbour on the way.
    fn symbol(&self) -> i32 {
        if self.to >= self.from { self.from + ROW / 2 } else { self.from - ROW / 2 }
    }
}

fn lay<'a>(strip: &Placed, part: &'a Part) -> Option<Laid<'a>> {
    let from = strip.height(part.from)?;
    let to = match part.to {
        Some(to) => strip.height(to)?,
        None => from + ROW / 2,
    };
    (from != to).then_some(Laid { part, from, to, slot: 0 })
}

fn label_width(part: &Part) -> i32 {
    if part.label.is_empty() { 0 } else { TO_LABEL + width(&part.label, false).min(WIDEST) }
}
