//! The optimum over all places: each place's table once, then the tables joined, cheapest ways first in mind.
//!
//! A first pass that carries few ways gives a bound; the second carries every way that could still beat it. What the
//! remaining places must cost at least, by how many inputs are left for them, is known beforehand and drops most ways
//! at once. Two ways that take the same of inputs, outputs and the tamper loop are alike to the rest, so the cheaper
//! one, or of equals the one whose options come first in the items' order, stands for both.

use super::cost::{Packed, SHARED};
use super::fired::{most_fired, trigger_classes};
use super::inputs::Room;
use super::key::{Key, Layout};
use super::outputs::{Demand, Outputs};
use super::place::{self, Entry, Place, Row, Table, UNSERVED};
use super::rest::{Rest, row_at, row_before};
use super::site::Site;
use crate::model::{Board, Wiring};
use smallvec::SmallVec;
use std::collections::BTreeMap;

/// The most ways that a search may make before it settles for the best it has: a count, never the clock.
const BUDGET: usize = 3_000_000;

/// How many ways the first pass carries.
const FIRST_WIDTH: usize = 10;

/// How many ways a place may carry before it waits for a bound.
const PLACE_WIDTH: usize = 512;

/// With how many of the cheapest ways each way is compared.
pub(super) const COMPARED: usize = 200;

/// How many ways are carried when the search is too large to finish.
const LAST_WIDTH: usize = 1_000;

/// A site with all that the search asks of it.
pub(super) struct Problem<'a> {
    pub(super) site: Site,
    pub(super) room: Room,
    pub(super) layout: Layout,
    pub(super) outputs: Outputs<'a>,
    /// What one item of each trigger class asks of the outputs.
    classes: Vec<Vec<Demand>>,
    /// By class counts, the fewest mixed outputs; `None`: the outputs can't.
    mixed: BTreeMap<u128, Option<u32>>,
    /// The most items with triggers that the outputs could take, whatever else; as many as there are, where outputs
    /// never decide.
    most_fired: u32,
    spent: usize,
}

/// The best that was found.
pub(super) struct Solution {
    /// The cost.
    pub(super) cost: Packed,
    /// Trigger names beyond the first on an output.
    pub(super) mixed: u32,
    /// For each item, the number of its option, `UNSERVED` for none.
    pub(super) row: Row,
    /// Whether it is proven to be the optimum.
    pub(super) proven: bool,
}

impl<'a> Problem<'a> {
    /// Reads what can run out on this board.
    pub(super) fn new(site: Site, board: &'a Board) -> Self {
        let room = Room::new(board, most_loops(&site));
        let mut outputs = Outputs::new(board);
        let (class_of, classes) = trigger_classes(&site, &mut outputs);
        let layout = Layout::new(&site, &room, class_of);
        let most_fired = most_fired(&mut outputs, &classes, &layout.class_sizes());
        Self { site, room, layout, outputs, classes, mixed: BTreeMap::new(), most_fired, spent: 0 }
    }

    /// Counts ways that were made.
    pub(super) fn spend(&mut self, ways: usize) {
        self.spent += ways;
    }

    fn is_spent(&self) -> bool {
        self.spent > BUDGET
    }

    /// Two parts together; `None` when they take more than there is.
    pub(super) fn join(&mut self, a: Key, b: Key) -> Option<Key> {
        let key = self.layout.join(&self.room, a, b)?;
        self.mixed_outputs(key).map(|_| key)
    }

    /// The fewest trigger names beyond the first on an output, for the items that a key serves.
    fn mixed_outputs(&mut self, key: Key) -> Option<u32> {
        if self.classes.is_empty() {
            return Some(0);
        }
        let bits = self.layout.class_bits(key);
        if let Some(known) = self.mixed.get(&bits) {
            return *known;
        }
        let served = self.layout.served(key);
        let demands =
            self.classes.iter().zip(served).flat_map(|(demands, n)| {
                std::iter::repeat_n(demands, usize::try_from(n).unwrap_or(0)).flatten().cloned()
            });
        let fewest = self.outputs.fewest_mixed(demands.collect());
        self.mixed.insert(bits, fewest);
        fewest
    }

    /// The optimum.
    pub(super) fn solve(&mut self) -> Solution {
        let mut places = place::places(self);
        // Places whose items may share stand together, so that a group is soon done with.
        places.sort_by_key(|place| self.first_group(place));
        let mut tables: Vec<Table> = places.iter().map(|p| p.table(self, Packed::MAX, PLACE_WIDTH)).collect();
        let rests = self.rests(&places, &tables);
        let (mut best, _) = self.join_all(&places, &tables, &rests, Packed::MAX, FIRST_WIDTH);
        let least_all = rests.first().map_or(0, |rest| rest.all);
        for (p, place) in places.iter().enumerate() {
            if !tables[p].complete && !self.is_spent() {
                // What the other places cost at least is not to be had here.
                let others = least_all.saturating_sub(self.least_of(place, &tables[p])) + self.nowhere();
                tables[p] = place.table(self, best.cost.saturating_sub(others), BUDGET);
            }
        }
        let rests = self.rests(&places, &tables);
        let (found, all) = self.join_all(&places, &tables, &rests, best.cost, BUDGET);
        let proven = all && !self.is_spent() && tables.iter().all(|t| t.complete);
        if proven {
            best = found;
        } else {
            let (wide, _) = self.join_all(&places, &tables, &rests, Packed::MAX, LAST_WIDTH);
            for other in [found, wide] {
                if (other.cost, other.mixed, &other.row) < (best.cost, best.mixed, &best.row) {
                    best = other;
                }
            }
        }
        best.proven = proven && !self.outputs.gave_up && self.layout.left_out.is_empty();
        best
    }

    /// What the items that no cable reaches cost.
    fn nowhere(&self) -> Packed {
        self.site.items.iter().filter(|i| i.options.is_empty()).map(place::unserved_cost).sum()
    }

    /// The least that a place can cost.
    fn least_of(&self, place: &Place, table: &Table) -> Packed {
        if table.complete {
            return table.entries.iter().map(|e| e.cost).min().unwrap_or(0);
        }
        place.items.iter().map(|i| place::least_cost(&self.site.items[*i])).sum()
    }

    /// For each place, what it and those after it must cost at least; one more for the end.
    fn rests(&self, places: &[Place], tables: &[Table]) -> Vec<Rest> {
        let mut rests = vec![self.nothing_left()];
        for (place, table) in places.iter().zip(tables).rev() {
            let after = &rests[rests.len() - 1];
            let least = self.least_of(place, table);
            let before = |rows: &[Vec<Packed>]| -> Vec<Vec<Packed>> {
                rows.iter()
                    .enumerate()
                    .map(|(s, row)| row_before(table, least, row, |key| self.layout.taken(key, s)))
                    .collect()
            };
            let mut loops = after.loops.clone();
            for group in place.items.iter().filter_map(|item| self.layout.sharing_group(&self.site.items[*item])) {
                loops[group] += 1;
            }
            rests.push(Rest {
                all: after.all + least,
                fired: row_before(table, least, &after.fired, |key| self.layout.fired(key)),
                priced: before(&after.priced),
                bounded: before(&after.bounded),
                loops,
            });
        }
        rests.reverse();
        rests
    }

    /// What the end of the last place costs: by how many inputs of each set are left, with those that sharing could
    /// free counted in, the loops that must share.
    fn nothing_left(&self) -> Rest {
        let rows = |priced: bool| -> Vec<Vec<Packed>> {
            let row = |s: usize| {
                let cap = self.room.caps.iter().flatten().map(|caps| caps[s]).max().unwrap_or(0);
                let slack = self.layout.slack(s);
                let over = |left: u32| if priced { Packed::from(slack.saturating_sub(left)) * SHARED } else { 0 };
                (0..=cap + slack).map(over).collect()
            };
            (0..self.room.sets.len()).map(row).collect()
        };
        let fired = vec![0; self.most_fired as usize + 1];
        Rest { all: 0, priced: rows(true), bounded: rows(false), fired, loops: vec![0; self.site.share_groups] }
    }

    /// Joins the tables of all places; at most `width` ways are carried from place to place, none that must come to
    /// more than `bound`. Gives the best, and whether no way was left out.
    fn join_all(
        &mut self,
        places: &[Place],
        tables: &[Table],
        rests: &[Rest],
        bound: Packed,
        width: usize,
    ) -> (Solution, bool) {
        let items = self.site.items.len();
        let nowhere = self.nowhere();
        let bound = bound.saturating_sub(nowhere);
        let mut ways = vec![Entry { cost: 0, key: Key::default(), row: SmallVec::from_elem(UNSERVED, items) }];
        let mut all = true;
        for (at, ((place, table), rest)) in places.iter().zip(tables).zip(&rests[1..]).enumerate() {
            let closing = self.closing(places, at);
            let mut next: Vec<Way> = Vec::new();
            for (from, way) in ways.iter().enumerate() {
                for (entry, add) in table.entries.iter().enumerate() {
                    let cost = way.cost + add.cost;
                    if cost + rest.all > bound {
                        break;
                    }
                    let Some(key) = self.join(way.key, add.key) else { continue };
                    let key = closing.iter().fold(key, |key, group| self.layout.close_group(key, *group));
                    let Some(least) = self.least_after(rest, key).map(|rest| cost.saturating_add(rest)) else {
                        continue;
                    };
                    if least <= bound {
                        next.push(Way { cost, least, key, from, entry });
                    }
                }
                if self.is_spent() {
                    all = false;
                    break;
                }
                self.spend(table.entries.len());
            }
            let (joined, whole) = pick(&self.layout, place, table, &ways, next, width);
            ways = joined;
            all &= whole;
        }
        let mut best: Option<Solution> = None;
        for way in ways {
            let Some(shared) = self.layout.shared(&self.room, way.key) else { continue };
            let Some(mixed) = self.mixed_outputs(way.key) else { continue };
            let cost = way.cost + nowhere + Packed::from(shared) * SHARED;
            if best.as_ref().is_none_or(|b| (cost, mixed, &way.row) < (b.cost, b.mixed, &b.row)) {
                best = Some(Solution { cost, mixed, row: way.row, proven: false });
            }
        }
        let nobody = || Solution {
            cost: self.site.items.iter().map(place::unserved_cost).sum(),
            mixed: 0,
            row: SmallVec::from_elem(UNSERVED, items),
            proven: false,
        };
        (best.unwrap_or_else(nobody), all)
    }

    /// The first group of a place's items; places without one come last.
    fn first_group(&self, place: &Place) -> usize {
        place.items.iter().filter_map(|item| self.site.items[*item].share).min().unwrap_or(usize::MAX)
    }

    /// The groups of which no later place has a loop.
    fn closing(&self, places: &[Place], at: usize) -> Vec<usize> {
        let groups = |place: &Place| -> Vec<usize> {
            place.items.iter().filter_map(|item| self.site.items[*item].share).collect()
        };
        let later: Vec<usize> = places[at + 1..].iter().flat_map(groups).collect();
        let mut closing = groups(&places[at]);
        closing.sort_unstable();
        closing.dedup();
        closing.retain(|group| !later.contains(group));
        closing
    }

    /// What the places after a step must cost at least, with what is left for them; `None` when the loops that are there
    /// could never all find an input.
    fn least_after(&self, rest: &Rest, key: Key) -> Option<Packed> {
        let caps = self.room.caps[self.layout.tamper(key) as usize].as_ref()?;
        let may_share = self.layout.can_share(key) + rest.may_share(key);
        let fired = self.most_fired.checked_sub(self.layout.fired(key))?;
        let mut least = rest.all.max(row_at(&rest.fired, fired));
        for (s, cap) in caps.iter().enumerate() {
            let slack = self.layout.slack(s);
            let taken = self.layout.taken(key, s);
            let left = (cap + slack.min(may_share)).checked_sub(taken)?;
            least = least.max(row_at(&rest.bounded[s], left));
            least = least.max(row_at(&rest.priced[s], cap + slack - taken));
        }
        Some(least)
    }
}

/// Of the ways that are alike to all that follows, the best, without those that a cheaper one beats in every respect; the
/// `width` cheapest of these.
fn pick(
    layout: &Layout,
    place: &Place,
    table: &Table,
    ways: &[Entry],
    mut next: Vec<Way>,
    width: usize,
) -> (Vec<Entry>, bool) {
    let order = |a: &Way, b: &Way| {
        let rows = || merged(place, &ways[a.from], &table.entries[a.entry], &ways[b.from], &table.entries[b.entry]);
        a.cost.cmp(&b.cost).then_with(rows)
    };
    next.sort_unstable_by(|a, b| a.key.cmp(&b.key).then_with(|| order(a, b)));
    next.dedup_by_key(|way| way.key);
    next.sort_unstable_by(|a, b| order(a, b).then_with(|| a.key.cmp(&b.key)));
    let mut kept: Vec<Way> = Vec::new();
    for way in next {
        if !kept.iter().take(COMPARED).any(|k| layout.takes_no_more(k.key, way.key)) {
            kept.push(way);
        }
    }
    let whole = kept.len() <= width;
    if !whole {
        // The way that takes nothing stays: from it every later place can still be joined.
        kept.sort_by_key(|way| (way.key != Key::default(), way.least));
        kept.truncate(width);
    }
    let entries = kept.into_iter().map(|way| {
        let mut row = ways[way.from].row.clone();
        for (at, option) in place.items.iter().zip(&table.entries[way.entry].row) {
            row[*at] = *option;
        }
        Entry { cost: way.cost, key: way.key, row }
    });
    (entries.collect(), whole)
}

/// Two ways put together, not yet written out.
struct Way {
    cost: Packed,
    least: Packed,
    key: Key,
    from: usize,
    entry: usize,
}

/// Compares the rows of two ways without writing them out: in the items' order, the first that differs decides.
fn merged(place: &Place, a: &Entry, add_a: &Entry, b: &Entry, add_b: &Entry) -> std::cmp::Ordering {
    let here = place.items.iter().zip(add_a.row.iter().zip(&add_b.row)).find(|(_, (x, y))| x != y);
    let before = a.row.iter().zip(&b.row).position(|(x, y)| x != y);
    match (here, before) {
        (None, None) => std::cmp::Ordering::Equal,
        (Some((_, (x, y))), None) => x.cmp(y),
        (None, Some(at)) => a.row[at].cmp(&b.row[at]),
        (Some((item, (x, y))), Some(at)) => {
            if *item < at {
                x.cmp(y)
            } else {
                a.row[at].cmp(&b.row[at])
            }
        }
    }
}

/// The most loops of each wiring that the items can ask for, each item all that it might.
fn most_loops(site: &Site) -> [u32; 3] {
    [Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol].map(|wiring| {
        let asks = site.items.iter().filter(|i| i.options.iter().any(|o| o.method.wiring() == Some(wiring)));
        u32::try_from(asks.count()).unwrap_or(u32::MAX)
    })
}
