//! Cores on their way to a strip: those that meet on a screw meet on one upright, with a dot; a core that is alone keeps
//! its colour all the way.

use super::channel::{Net, Routed, route};
use super::strip::{Facing, Placed};
use super::svg::Svg;
use crate::pack::CoreName;
use std::fmt::Write as _;

/// From one upright to the next.
const PITCH: i32 = 8;
/// Before the first upright and after the last.
const EDGE: i32 = 15;

/// A core that goes to screws.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wire<'a> {
    /// Its colour; `None`: a wire of any colour.
    pub(super) core: Option<&'a CoreName>,
    /// The height of its row.
    pub(super) y: i32,
    /// The screws; none: it goes nowhere.
    pub(super) screws: &'a [usize],
}

/// Cores and screws that belong together.
#[derive(Debug, Default)]
struct Group {
    wires: Vec<usize>,
    screws: Vec<usize>,
}

/// The way from the cores' rows to a strip.
#[derive(Debug)]
pub(super) struct Way<'a> {
    wires: Vec<Wire<'a>>,
    groups: Vec<Group>,
    heights: Vec<Vec<i32>>,
    routed: Routed,
    facing: Facing,
}

/// Where a way begins and ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Across {
    /// Where cores leave their rows.
    pub(super) rows: i32,
    /// Where the channel's left edge is.
    pub(super) channel: i32,
    /// Where the screws are.
    pub(super) screws: i32,
}

impl<'a> Way<'a> {
    /// The way of these cores to the screws of a strip.
    pub(super) fn new(wires: Vec<Wire<'a>>, strip: &Placed, facing: Facing) -> Self {
        let mut groups: Vec<Group> = Vec::new();
        for (at, wire) in wires.iter().enumerate() {
            let screws: Vec<usize> = wire.screws.iter().copied().filter(|s| strip.height(*s).is_some()).collect();
            if !screws.is_empty() {
                join(&mut groups, at, screws);
            }
        }
        let heights: Vec<Vec<i32>> =
            groups.iter().map(|g| g.screws.iter().filter_map(|s| strip.height(*s)).collect()).collect();
        let nets: Vec<Net> = groups
            .iter()
            .zip(&heights)
            .map(|(group, screws)| {
                let rows = group.wires.iter().filter_map(|w| wires.get(*w)).map(|w| w.y).collect();
                match facing {
                    Facing::Left => Net { left: rows, right: screws.clone() },
                    Facing::Right => Net { left: screws.clone(), right: rows },
                }
            })
            .collect();
        let routed = route(&nets);
        Self { wires, groups, heights, routed, facing }
    }

    /// How wide the channel is.
    pub(super) fn width(&self) -> i32 {
        2 * EDGE + i32::try_from(self.routed.tracks.saturating_sub(1)).unwrap_or(0) * PITCH
    }

    /// How often lines cross in it.
    pub(super) fn crossings(&self) -> usize {
        self.routed.crossings
    }

    /// Whether a core lands on a screw.
    pub(super) fn lands_on(&self, screw: usize) -> bool {
        self.groups.iter().any(|g| g.screws.contains(&screw))
    }

    fn upright(&self, group: usize, across: Across) -> i32 {
        let track = self.routed.track.get(group).copied().unwrap_or(0);
        across.channel + EDGE + i32::try_from(track).unwrap_or(0) * PITCH
    }

    /// Draws what several cores have in common: the upright and the ways to the screws.
    pub(super) fn shared(&self, svg: &mut Svg, across: Across) {
        for (at, group) in self.groups.iter().enumerate().filter(|(_, g)| !g.alone()) {
            let x = self.upright(at, across);
            let screws = self.heights.get(at).map_or(&[][..], Vec::as_slice);
            let ends = || self.rows(group).chain(screws.iter().copied());
            let (Some(top), Some(bottom)) = (ends().min(), ends().max()) else { continue };
            let mut d = format!("M{x} {top}V{bottom}");
            for y in screws {
                let _ = write!(d, "M{x} {y}H{}", across.screws);
            }
            svg.core(self.common(group), self.thin(), &d);
            for y in ends().filter(|y| *y > top && *y < bottom) {
                svg.dot(x, y);
            }
        }
    }

    /// Draws a core: all the way where it is alone, else to its upright.
    pub(super) fn one(&self, svg: &mut Svg, wire: usize, across: Across) {
        let Some(own) = self.wires.get(wire) else { return };
        let Some(at) = self.groups.iter().position(|g| g.wires.contains(&wire)) else { return };
        let x = self.upright(at, across);
        let screw = self.heights.get(at).and_then(|h| h.first()).copied();
        let alone = self.groups.get(at).is_some_and(Group::alone);
        let d = match screw {
            Some(screw) if alone => format!("M{} {}H{x}V{screw}H{}", across.rows, own.y, across.screws),
            _ => format!("M{} {}H{x}", across.rows, own.y),
        };
        svg.core(own.core, self.thin(), &d);
    }

    fn thin(&self) -> bool {
        self.facing == Facing::Right
    }

    fn rows(&self, group: &Group) -> impl Iterator<Item = i32> {
        group.wires.iter().filter_map(|w| self.wires.get(*w)).map(|w| w.y)
    }

    /// The colour that all cores of a group have.
    fn common(&self, group: &Group) -> Option<&'a CoreName> {
        let mut cores = group.wires.iter().filter_map(|w| self.wires.get(*w)).map(|w| w.core);
        let first = cores.next().flatten();
        first.filter(|first| cores.all(|core| core == Some(*first)))
    }
}

impl Group {
    fn alone(&self) -> bool {
        self.wires.len() == 1 && self.screws.len() == 1
    }
}

/// Adds a core to the group that has one of its screws; groups that it connects become one.
fn join(groups: &mut Vec<Group>, wire: usize, screws: Vec<usize>) {
    let mut own = Group { wires: vec![wire], screws };
    let touches = |group: &mut Group| group.screws.iter().any(|s| own.screws.contains(s));
    let Some(first) = groups.iter_mut().position(touches) else { return groups.push(own) };
    let mut kept = Vec::new();
    for group in groups.drain(..) {
        if group.screws.iter().any(|s| own.screws.contains(s)) {
            own = merged(group, own);
        } else {
            kept.push(group);
        }
    }
    kept.insert(first.min(kept.len()), own);
    *groups = kept;
}

fn merged(mut first: Group, second: Group) -> Group {
    first.wires.extend(second.wires);
    for screw in second.screws {
        if !first.screws.contains(&screw) {
            first.screws.push(screw);
        }
    }
    first
}
