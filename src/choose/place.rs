//! One place of the site on its own: the items and cables that can only meet each other. Its table holds, for each
//! key, the cheapest way to serve its items.

use super::cost::{MOVED, OPENED, Packed, UNMONITORED, UNSERVED_MUST, UNSERVED_WANT, USED};
use super::key::{Key, Layout};
use super::search::{COMPARED, Problem};
use super::site::{Opt, SiteItem};
use smallvec::SmallVec;

/// The option number of an item left unserved: after every other.
pub(super) const UNSERVED: u16 = u16::MAX;

/// For each item of a place (or of the site), the number of its option.
pub(super) type Row = SmallVec<[u16; 12]>;

/// The items and cables of one place.
pub(super) struct Place {
    /// Its items, in the job's order.
    pub(super) items: Vec<usize>,
    /// Its cables.
    pub(super) cables: Vec<usize>,
    /// The supplies that feed its items.
    supplies: Vec<usize>,
}

/// A way to serve the items of a place.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// What it costs.
    pub(super) cost: Packed,
    /// What it takes from the rest of the site.
    pub(super) key: Key,
    /// What each item gets.
    pub(super) row: Row,
}

/// The table of a place.
pub(super) struct Table {
    /// Its entries, the cheapest first; few take no less than a cheaper one.
    pub(super) entries: Vec<Entry>,
    /// Whether nothing was left out.
    pub(super) complete: bool,
}

/// A partial way, with what it has used of each cable.
#[derive(Debug, Clone)]
struct Label {
    entry: Entry,
    cables: SmallVec<[CableState; 4]>,
}

/// Cores used (low bits), kept flags, and a pair of flags for each supply: two sides, each there or not.
type CableState = u64;

const CORES: u64 = (1 << 20) - 1;

/// A kept item uses this side of some supply on the cable.
fn kept_flag(side: usize) -> u64 {
    1 << (20 + side)
}

/// This side of this supply is on the cable.
fn side_flag(supply: usize, side: usize) -> u64 {
    1 << (22 + 2 * supply + side)
}

/// The most supplies that a cable's state has room for.
const SUPPLIES: usize = 21;

/// Splits a site into its places, by the items' cables.
pub(super) fn places(problem: &Problem<'_>) -> Vec<Place> {
    let site = &problem.site;
    let mut home: Vec<usize> = (0..site.cables.len()).collect();
    for item in &site.items {
        let mut cables = item.options.iter().map(|o| home[o.cable]);
        let Some(first) = cables.next() else { continue };
        let others: Vec<usize> = cables.filter(|c| *c != first).collect();
        for place in &mut home {
            if others.contains(place) {
                *place = first;
            }
        }
    }
    let mut places: Vec<Place> = Vec::new();
    let mut at: Vec<Option<usize>> = vec![None; site.cables.len()];
    for (i, item) in site.items.iter().enumerate() {
        let Some(cable) = item.options.first().map(|o| home[o.cable]) else { continue };
        let p = *at[cable].get_or_insert_with(|| {
            let cables = (0..home.len()).filter(|c| home[*c] == cable).collect();
            places.push(Place { items: Vec::new(), cables, supplies: Vec::new() });
            places.len() - 1
        });
        places[p].items.push(i);
        if let Some(supply) = item.supply
            && !places[p].supplies.contains(&supply)
        {
            places[p].supplies.push(supply);
        }
    }
    places
}

/// What leaving an item unserved costs.
pub(super) fn unserved_cost(item: &SiteItem) -> Packed {
    if item.must { UNSERVED_MUST } else { UNSERVED_WANT }
}

/// What an option costs, without the supply pair.
fn option_cost(opt: &Opt) -> Packed {
    Packed::from(opt.unmonitored) * UNMONITORED
        + Packed::from(opt.opened) * OPENED
        + Packed::from(opt.moved) * MOVED
        + Packed::from(opt.cores) * USED
}

/// The least that an item can cost, whatever the others do.
pub(super) fn least_cost(item: &SiteItem) -> Packed {
    item.options.iter().map(option_cost).chain([unserved_cost(item)]).min().unwrap_or(0)
}

impl Place {
    /// The items, kept ones first: a kept item's supply cores then never lower the cost of an earlier step.
    fn order(&self, problem: &Problem<'_>) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.items.len()).collect();
        order.sort_by_key(|at| !problem.site.items[self.items[*at]].keep);
        order
    }

    /// The table of this place. Ways that cost more than `bound` are dropped; at most `width` ways are carried from item
    /// to item, the cheapest and the one that serves nobody.
    pub(super) fn table(&self, problem: &mut Problem<'_>, bound: Packed, width: usize) -> Table {
        let order = self.order(problem);
        let mut rest: Packed = self.items.iter().map(|i| least_cost(&problem.site.items[*i])).sum();
        let start = Entry { cost: 0, key: Key::default(), row: SmallVec::from_elem(0, self.items.len()) };
        let mut labels = vec![Label { entry: start, cables: SmallVec::from_elem(0, self.cables.len()) }];
        let mut complete = self.supplies.len() <= SUPPLIES;
        for (step, at) in order.iter().copied().enumerate() {
            rest -= least_cost(&problem.site.items[self.items[at]]);
            let later = Later::new(&order[step + 1..], |at| &problem.site.items[self.items[at]]);
            let mut next = Vec::new();
            for label in &labels {
                self.serve(problem, label, at, bound.saturating_sub(rest), &mut next);
            }
            problem.spend(next.len());
            next.retain(|label| label.entry.cost.saturating_add(later.left_out(self.free(problem, label))) <= bound);
            labels = best_of_each(next);
            complete &= labels.len() <= width;
            narrow(&mut labels, width);
        }
        let entries = labels.into_iter().map(|label| label.entry).collect();
        Table { entries: undominated(&problem.layout, entries), complete }
    }

    /// How many usable cores a label leaves.
    fn free(&self, problem: &Problem<'_>, label: &Label) -> u32 {
        let left = |(c, state): (&usize, &CableState)| {
            u64::from(problem.site.cables[*c].capacity).saturating_sub(state & CORES)
        };
        u32::try_from(self.cables.iter().zip(&label.cables).map(left).sum::<u64>()).unwrap_or(u32::MAX)
    }

    /// Every way to go on from `label` with the item at `at`.
    fn serve(&self, problem: &mut Problem<'_>, label: &Label, at: usize, bound: Packed, next: &mut Vec<Label>) {
        let index = self.items[at];
        let mut push = |mut label: Label, option: u16| {
            if label.entry.cost <= bound {
                label.entry.row[at] = option;
                next.push(label);
            }
        };
        let mut unserved = label.clone();
        unserved.entry.cost += unserved_cost(&problem.site.items[index]);
        push(unserved, UNSERVED);
        if problem.layout.left_out.contains(&index) {
            return;
        }
        for o in 0..problem.site.items[index].options.len().min(usize::from(UNSERVED)) {
            let Some(base) = self.with_option(problem, label, index, o) else { continue };
            let item = &problem.site.items[index];
            let takes = problem.layout.takes(index, item, &item.options[o]);
            let Some(key) = problem.join(label.entry.key, takes) else { continue };
            let mut served = base;
            served.entry.key = key;
            push(served, u16::try_from(o).unwrap_or(UNSERVED));
        }
    }

    /// `label` with one item's cores on a cable; `None` when the cable has no room.
    fn with_option(&self, problem: &Problem<'_>, label: &Label, index: usize, option: usize) -> Option<Label> {
        let item = &problem.site.items[index];
        let opt = &item.options[option];
        let c = self.cables.iter().position(|c| *c == opt.cable)?;
        let cable = &problem.site.cables[opt.cable];
        let mut state = label.cables[c] + u64::from(opt.cores);
        let mut cost = label.entry.cost + option_cost(opt);
        if let Some(supply) = item.supply {
            let supply = self.supplies.iter().position(|s| *s == supply).filter(|s| *s < SUPPLIES)?;
            for side in (0..2).filter(|side| item.needs[*side]) {
                if state & side_flag(supply, side) == 0 {
                    state = (state | side_flag(supply, side)) + 1;
                    cost += USED + MOVED;
                }
                if item.keep && cable.surveyed_supply[side] && state & kept_flag(side) == 0 {
                    state |= kept_flag(side);
                    cost -= MOVED;
                }
            }
        }
        if state & CORES > u64::from(cable.capacity) {
            return None;
        }
        let mut label = label.clone();
        label.cables[c] = state;
        label.entry.cost = cost;
        Some(label)
    }
}

/// The items that are still to come in a place.
struct Later {
    /// The fewest cores that each needs, the most first.
    cores: Vec<u32>,
    /// How many of them are no `must`.
    wants: u32,
}

impl Later {
    fn new<'s>(order: &[usize], item: impl Fn(usize) -> &'s SiteItem) -> Self {
        let fewest = |at: &usize| item(*at).options.iter().map(|o| o.cores).min().unwrap_or(0);
        let mut cores: Vec<u32> = order.iter().map(fewest).collect();
        cores.sort_unstable_by_key(|cores| std::cmp::Reverse(*cores));
        let wants = order.iter().filter(|at| !item(**at).must).count();
        Self { cores, wants: u32::try_from(wants).unwrap_or(u32::MAX) }
    }

    /// What leaving out as many as must be left out costs at least, with this many cores for all.
    fn left_out(&self, free: u32) -> Packed {
        let mut needed: u32 = self.cores.iter().sum();
        let mut out = 0;
        for cores in &self.cores {
            if needed <= free {
                break;
            }
            needed -= cores;
            out += 1;
        }
        let wants = out.min(self.wants);
        Packed::from(wants) * UNSERVED_WANT + Packed::from(out - wants) * UNSERVED_MUST
    }
}

/// Of the labels that are alike to all that follows, the best.
fn best_of_each(mut labels: Vec<Label>) -> Vec<Label> {
    labels.sort_unstable_by(|a, b| {
        (&a.cables, a.entry.key, a.entry.cost, &a.entry.row).cmp(&(&b.cables, b.entry.key, b.entry.cost, &b.entry.row))
    });
    labels.dedup_by(|b, a| a.cables == b.cables && a.entry.key == b.entry.key);
    labels
}

/// Keeps the `width` cheapest labels, and the one that serves nobody.
fn narrow(labels: &mut Vec<Label>, width: usize) {
    if labels.len() <= width {
        return;
    }
    labels.sort_by(|a, b| (a.entry.cost, &a.entry.row).cmp(&(b.entry.cost, &b.entry.row)));
    let takes_nothing = |l: &&Label| l.entry.key == Key::default() && l.cables.iter().all(|c| *c == 0);
    let nobody = labels.iter().skip(width).find(takes_nothing).cloned();
    labels.truncate(width);
    labels.extend(nobody);
}

/// The entries that no other beats in cost while taking no more.
fn undominated(layout: &Layout, mut entries: Vec<Entry>) -> Vec<Entry> {
    entries.sort_unstable_by(|a, b| (a.cost, &a.row, a.key).cmp(&(b.cost, &b.row, b.key)));
    let mut kept: Vec<Entry> = Vec::new();
    for entry in entries {
        if !kept.iter().take(COMPARED).any(|k| layout.takes_no_more(k.key, entry.key)) {
            kept.push(entry);
        }
    }
    kept
}
