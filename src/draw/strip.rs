//! A row of screws: which of them are shown, at what height, and how they look.

use super::metrics::width;
use super::svg::{Side, Svg, centred};
use crate::pack::drawing::{Screw, ScrewKind, Strip};

/// The height of a screw, and of a core's row.
pub(super) const ROW: i32 = 20;
/// The widest that the mark of a screw may be; what is wider is cut.
const WIDEST: i32 = 76;
/// What a screw's head takes beside its mark.
const HEAD: i32 = 26;

/// On which side of a strip the cores come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Facing {
    /// The cores come from the right: the strip is at the left of a drawing.
    Right,
    /// The cores come from the left.
    Left,
}

/// A strip with the heights of the screws that are shown.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    strip: &'a Strip,
    /// The middle of each screw; `None`: it is not shown.
    heights: Vec<Option<i32>>,
    /// Where screws are left out.
    gaps: Vec<i32>,
    /// Where the joins begin.
    joins: Option<i32>,
    /// The lowest edge.
    pub(super) bottom: i32,
}

impl<'a> Placed<'a> {
    /// The screws for which `shown` says so, from `top` down; a gap where some are left out, and before the joins.
    pub(super) fn new(strip: &'a Strip, shown: impl Fn(usize) -> bool, top: i32) -> Self {
        let heights = vec![None; strip.screws.len()];
        let mut placed = Self { strip, heights, gaps: Vec::new(), joins: None, bottom: top };
        let mut left_out = false;
        for (at, screw) in screws_then_joins(strip) {
            if !shown(at) {
                left_out |= screw.kind == ScrewKind::Screw;
                continue;
            }
            placed.before(screw, left_out);
            left_out = false;
            placed.heights.iter_mut().skip(at).take(1).for_each(|y| *y = Some(placed.bottom + ROW / 2));
            placed.bottom += ROW;
        }
        if left_out {
            placed.gap();
        }
        placed
    }

    /// A strip of devices' screws: every screw is shown, at the heights that are given.
    pub(super) fn at(strip: &'a Strip, heights: Vec<Option<i32>>, bottom: i32) -> Self {
        Self { strip, heights, gaps: Vec::new(), joins: None, bottom }
    }

    fn before(&mut self, screw: &Screw, left_out: bool) {
        let join = screw.kind == ScrewKind::Join && self.joins.is_none();
        if left_out {
            self.gap();
        }
        if join {
            self.joins = Some(self.bottom);
            self.bottom += ROW;
        }
    }

    fn gap(&mut self) {
        self.gaps.push(self.bottom);
        self.bottom += ROW;
    }

    /// The height of a screw that is shown.
    pub(super) fn height(&self, screw: usize) -> Option<i32> {
        self.heights.get(screw).copied().flatten()
    }

    /// A screw of the strip.
    pub(super) fn screw(&self, at: usize) -> Option<&'a Screw> {
        self.strip.screws.get(at)
    }

    /// How wide the strip is.
    pub(super) fn width(&self) -> i32 {
        let shown = self.shown().map(|(screw, _)| width(&label(screw), true)).max().unwrap_or(0);
        shown.clamp(34, WIDEST) + HEAD
    }

    /// What the screws are that are shown.
    pub(super) fn kinds(&self) -> impl Iterator<Item = ScrewKind> {
        self.shown().map(|(screw, _)| screw.kind)
    }

    fn shown(&self) -> impl Iterator<Item = (&'a Screw, i32)> {
        self.strip.screws.iter().zip(&self.heights).filter_map(|(screw, y)| Some((screw, (*y)?)))
    }

    /// Draws the cells, under the cores.
    pub(super) fn cells(&self, svg: &mut Svg, x: i32) {
        let width = self.width();
        for (screw, y) in self.shown() {
            let class = if screw.kind == ScrewKind::Screw { "h" } else { "g" };
            svg.rect(class, (x, y - ROW / 2), (width, ROW));
        }
        for top in &self.gaps {
            for dot in [5, 10, 15] {
                svg.path("t", &format!("M{} {}h2", x + width / 2 - 1, top + dot));
            }
        }
    }

    /// Draws screws and marks, over the cores.
    pub(super) fn marks(&self, svg: &mut Svg, x: i32, facing: Facing) {
        let width = self.width();
        for (screw, y) in self.shown() {
            let head = head(x, width, facing);
            match screw.kind {
                ScrewKind::Join => svg.dot(head, y),
                ScrewKind::Screw | ScrewKind::NotOnCard => svg.screw(head, y),
            }
            let (at, side) = match facing {
                Facing::Left => (x + HEAD - 6, Side::Start),
                Facing::Right => (x + width - HEAD + 6, Side::End),
            };
            svg.bold((at, centred(y)), side, &label(screw), width - HEAD);
        }
        if let Some(top) = self.joins {
            let (at, side) = match facing {
                Facing::Left => (x, Side::Start),
                Facing::Right => (x + width, Side::End),
            };
            svg.text((at, top + ROW - 4), side, "joins", width);
        }
    }
}

/// The screws of a strip, and after them the joins beside it.
fn screws_then_joins(strip: &Strip) -> impl Iterator<Item = (usize, &Screw)> {
    let all = || strip.screws.iter().enumerate();
    let joins = all().filter(|(_, s)| s.kind == ScrewKind::Join);
    all().filter(|(_, s)| s.kind != ScrewKind::Join).chain(joins)
}

/// The middle of the screw heads of a strip.
pub(super) fn head(x: i32, width: i32, facing: Facing) -> i32 {
    match facing {
        Facing::Left => x + 10,
        Facing::Right => x + width - 10,
    }
}

/// What stands beside a screw.
pub(super) fn label(screw: &Screw) -> String {
    match screw.kind {
        ScrewKind::Screw | ScrewKind::Join => screw.mark.clone(),
        ScrewKind::NotOnCard => format!("? {}", screw.mark),
    }
}
