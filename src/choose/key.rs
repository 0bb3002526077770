//! What one part of the site takes from what all parts share: inputs, the tamper loop, outputs.
//!
//! A key is two integers: counts, which add up when parts are put together, and flags, which join. Parts that take
//! the same are alike to the rest of the site, so only the best of them is kept.

use super::inputs::{Room, TamperDemand, bit};
use super::site::{Opt, Site, SiteItem, TamperUse};
use crate::model::Wiring;

/// What is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Key {
    counts: u128,
    flags: u128,
}

/// A count inside `Key::counts`.
#[derive(Debug, Clone, Copy)]
struct Field {
    shift: u32,
    mask: u128,
}

impl Field {
    fn read(self, counts: u128) -> u32 {
        u32::try_from((counts >> self.shift) & self.mask).unwrap_or(u32::MAX)
    }
}

/// Joined the tamper loop.
const TAMPER: u128 = 1;

/// How keys are laid out for one site.
pub(super) struct Layout {
    sets: Vec<(usize, Field)>,
    negatives: Field,
    classes: Vec<Field>,
    /// Loops that could share an input, where inputs can run out.
    sharing: Option<Field>,
    /// For each item, the class of its triggers, where outputs matter.
    class_of: Vec<Option<usize>>,
    /// Items whose class found no room in the key; they are left unserved and the plan counts as not proven.
    pub(super) left_out: Vec<usize>,
    /// The most loops that could ever go onto another's input.
    pub(super) most_shared: u32,
    /// For each group, whether two loops of it could share at all.
    shares: Vec<bool>,
}

impl Layout {
    /// The layout for a site: only what can run out has a place in it. `class_of` gives each item's trigger class,
    /// where outputs can run out.
    pub(super) fn new(site: &Site, room: &Room, class_of: Vec<Option<usize>>) -> Self {
        let mut next = 0;
        let mut field = |most: usize| {
            let bits = usize::BITS - most.leading_zeros();
            let field = Field { shift: next, mask: (1 << bits) - 1 };
            next += bits;
            (next <= 128).then_some(field)
        };
        // One more than the items can take, so that adding two parts never spills into the next field.
        let most = 2 * site.items.len() + 1;
        let sets: Vec<(usize, Field)> = room.sets.iter().filter_map(|s| Some((*s, field(most)?))).collect();
        let negatives = field(3).unwrap_or(Field { shift: 0, mask: 0 });
        let sizes = if room.is_scarce() && site.share_groups < 120 { group_sizes(site) } else { Vec::new() };
        let most_shared = sizes.iter().map(|size| size.saturating_sub(1)).sum();
        let sharing = if most_shared > 0 { field(most) } else { None };
        let class_count = class_of.iter().flatten().max().map_or(0, |c| c + 1);
        let members = |class: usize| class_of.iter().filter(|c| **c == Some(class)).count();
        let classes: Vec<Field> = (0..class_count).map_while(|class| field(members(class))).collect();
        let left_out = (0..class_of.len()).filter(|i| class_of[*i].is_some_and(|c| c >= classes.len())).collect();
        Self {
            sets,
            negatives,
            classes,
            sharing,
            class_of,
            left_out,
            most_shared,
            shares: sizes.iter().map(|size| *size > 1).collect(),
        }
    }

    /// What an option takes.
    pub(super) fn takes(&self, at: usize, item: &SiteItem, opt: &Opt) -> Key {
        let mut key = Key::default();
        if opt.tamper != TamperUse::Apart {
            key.flags |= TAMPER;
        }
        if opt.tamper == TamperUse::Negative {
            key.counts += 1 << self.negatives.shift;
        }
        if let Some(field) = self.class_of[at].and_then(|c| self.classes.get(c)) {
            key.counts += 1 << field.shift;
        }
        let Some(wiring) = opt.method.wiring() else { return key };
        for (_, field) in self.sets.iter().filter(|(set, _)| set & (1 << bit(wiring)) != 0) {
            key.counts += 1 << field.shift;
        }
        if let (Some(field), Some(group), Wiring::ClosedLoop) = (self.sharing, self.sharing_group(item), wiring) {
            key.counts += 1 << field.shift;
            key.flags |= group_flag(group);
        }
        key
    }

    /// Two parts together; `None` when they take more than there is, however much is shared.
    pub(super) fn join(&self, room: &Room, a: Key, b: Key) -> Option<Key> {
        let key = Key { counts: a.counts + b.counts, flags: a.flags | b.flags };
        if self.negatives.read(key.counts) > 1 {
            return None;
        }
        let caps = room.caps[self.tamper(key) as usize].as_ref()?;
        let within =
            self.sets.iter().zip(caps).all(|((set, field), cap)| field.read(key.counts) <= cap + self.may_share(*set));
        within.then_some(key)
    }

    /// How many loops of a set of wirings might ever go onto another's input.
    fn may_share(&self, set: usize) -> u32 {
        if set & (1 << bit(Wiring::ClosedLoop)) == 0 { 0 } else { self.most_shared }
    }

    /// The same for the n-th set of the layout.
    pub(super) fn slack(&self, set: usize) -> u32 {
        self.sets.get(set).map_or(0, |(set, _)| self.may_share(*set))
    }

    /// The group with which an item's loop could share an input, where that could matter.
    pub(super) fn sharing_group(&self, item: &SiteItem) -> Option<usize> {
        item.share.filter(|group| self.shares.get(*group) == Some(&true))
    }

    /// Whether a loop of a group is there that could still be shared with.
    pub(super) fn has_group(key: Key, group: usize) -> bool {
        key.flags & group_flag(group) != 0
    }

    /// How many of the loops that are there can go onto another's input: of each group, all but one.
    pub(super) fn can_share(&self, key: Key) -> u32 {
        self.sharing.map_or(0, |field| field.read(key.counts)).saturating_sub((key.flags >> 1).count_ones())
    }

    /// How many loops must go onto another's input for all to find one; `None` when too few can.
    pub(super) fn shared(&self, room: &Room, key: Key) -> Option<u32> {
        let caps = room.caps[self.tamper(key) as usize].as_ref()?;
        let over = self.sets.iter().zip(caps).map(|((_, field), cap)| field.read(key.counts).saturating_sub(*cap));
        let over = over.max().unwrap_or(0);
        (over <= self.can_share(key)).then_some(over)
    }

    /// What the tamper loop asks for.
    pub(super) fn tamper(&self, key: Key) -> TamperDemand {
        if self.negatives.read(key.counts) > 0 {
            TamperDemand::Negative
        } else if key.flags & TAMPER != 0 {
            TamperDemand::Pair
        } else {
            TamperDemand::Nothing
        }
    }

    /// How many inputs of the n-th set are taken.
    pub(super) fn taken(&self, key: Key, set: usize) -> u32 {
        self.sets.get(set).map_or(0, |(_, field)| field.read(key.counts))
    }

    /// How many items there are of each trigger class.
    pub(super) fn class_sizes(&self) -> Vec<u32> {
        let members = |class: usize| self.class_of.iter().filter(|c| **c == Some(class)).count();
        (0..self.classes.len()).map(|class| u32::try_from(members(class)).unwrap_or(u32::MAX)).collect()
    }

    /// How many items with triggers are served, where outputs matter.
    pub(super) fn fired(&self, key: Key) -> u32 {
        self.classes.iter().map(|field| field.read(key.counts)).sum()
    }

    /// How many items of each trigger class are served.
    pub(super) fn served(&self, key: Key) -> Vec<u32> {
        self.classes.iter().map(|field| field.read(key.counts)).collect()
    }

    /// The part of a key that says which trigger classes are served.
    pub(super) fn class_bits(&self, key: Key) -> u128 {
        self.classes.iter().map(|f| (f.mask << f.shift) & key.counts).sum()
    }

    /// The same key once no more loops of a group can come: its one loop that needs an input is counted off, and the
    /// group is forgotten.
    pub(super) fn close_group(&self, key: Key, group: usize) -> Key {
        match self.sharing {
            Some(field) if key.flags & group_flag(group) != 0 => {
                Key { counts: key.counts - (1 << field.shift), flags: key.flags & !group_flag(group) }
            }
            _ => key,
        }
    }

    /// Whether whatever can be done beside `b` can be done beside `a`, with no more loops shared.
    ///
    /// With `d` inputs fewer of every set that closed loops are in, `a` needs up to `d` fewer loops on others' inputs,
    /// so it may have that many fewer that could share; a group that only `a` has costs it one of them.
    pub(super) fn takes_no_more(&self, a: Key, b: Key) -> bool {
        let no_more = |field: &Field| field.read(a.counts) <= field.read(b.counts);
        let all = self.sets.iter().map(|(_, f)| f).chain(&self.classes).chain([&self.negatives]).all(no_more);
        if !all || (a.flags & TAMPER) > (b.flags & TAMPER) {
            return false;
        }
        let Some(sharing) = self.sharing else { return true };
        let closed = self.sets.iter().filter(|(set, _)| set & (1 << bit(Wiring::ClosedLoop)) != 0);
        let fewer = closed.map(|(_, f)| f.read(b.counts) - f.read(a.counts)).min().unwrap_or(0);
        let own_groups = ((a.flags & !b.flags) >> 1).count_ones();
        sharing.read(a.counts) + fewer >= sharing.read(b.counts) + own_groups
    }
}

/// How many loops of each group there could be.
fn group_sizes(site: &Site) -> Vec<u32> {
    let mut sizes = vec![0; site.share_groups];
    let closed = |item: &&SiteItem| item.options.iter().any(|o| o.method.wiring() == Some(Wiring::ClosedLoop));
    for group in site.items.iter().filter(closed).filter_map(|item| item.share) {
        sizes[group] += 1;
    }
    sizes
}

/// A loop of this group is there.
fn group_flag(group: usize) -> u128 {
    1 << (1 + group)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Inputs for closed loops, inputs for loops with a resistor, and loops that could share.
    fn layout() -> Layout {
        let field = |shift| Field { shift, mask: 15 };
        Layout {
            sets: vec![(1 << bit(Wiring::ClosedLoop), field(0)), (1 << bit(Wiring::SingleEol), field(4))],
            negatives: field(8),
            classes: Vec::new(),
            sharing: Some(field(12)),
            class_of: Vec::new(),
            left_out: Vec::new(),
            most_shared: 2,
            shares: vec![true, true],
        }
    }

    /// A key that takes so many loops, of which so many could share, with these groups.
    fn loops(count: u128, shareable: u128, groups: &[usize]) -> Key {
        Key { counts: count | shareable << 12, flags: groups.iter().map(|group| group_flag(*group)).sum() }
    }

    #[test]
    fn loops_that_could_share_are_worth_more_than_others() {
        let takes_no_more = |a, b| layout().takes_no_more(a, b);
        assert!(!takes_no_more(loops(1, 0, &[]), loops(1, 1, &[0])), "the other one could still be shared with");
        assert!(takes_no_more(loops(1, 1, &[0]), loops(1, 0, &[])));
        assert!(takes_no_more(loops(1, 0, &[]), loops(2, 1, &[0])), "it takes an input fewer");
        assert!(!takes_no_more(loops(1, 1, &[0]), loops(1, 1, &[1])), "each has a group of its own");
        assert!(!takes_no_more(loops(2, 0, &[]), loops(1, 0, &[])), "it takes an input more");
    }
}
