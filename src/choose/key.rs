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
    /// For each item, the class of its triggers, where outputs matter.
    class_of: Vec<Option<usize>>,
    /// Items whose class found no room in the key; they are left unserved and the plan counts as not proven.
    pub(super) left_out: Vec<usize>,
    shares: bool,
}

/// Ways in which one option uses inputs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Use {
    /// What it takes.
    pub(super) key: Key,
    /// Whether it goes onto an input that another loop of its group has.
    pub(super) guest: bool,
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
        let class_count = class_of.iter().flatten().max().map_or(0, |c| c + 1);
        let members = |class: usize| class_of.iter().filter(|c| **c == Some(class)).count();
        let classes: Vec<Field> = (0..class_count).map_while(|class| field(members(class))).collect();
        let left_out = (0..class_of.len()).filter(|i| class_of[*i].is_some_and(|c| c >= classes.len())).collect();
        let shares = room.is_scarce() && site.share_groups < 60;
        Self { sets, negatives, classes, class_of, left_out, shares }
    }

    /// What an option takes, in each of the ways it can use inputs.
    pub(super) fn uses(&self, at: usize, item: &SiteItem, opt: &Opt) -> impl Iterator<Item = Use> {
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
        let wiring = opt.method.wiring();
        let group = item.share.filter(|_| self.shares && wiring == Some(Wiring::ClosedLoop));
        let mut host = key;
        if let Some(wiring) = wiring {
            for (set, field) in &self.sets {
                if set & (1 << bit(wiring)) != 0 {
                    host.counts += 1 << field.shift;
                }
            }
        }
        let guest = group.map(|g| {
            host.flags |= host_flag(g);
            Use { key: Key { counts: key.counts, flags: key.flags | guest_flag(g) }, guest: true }
        });
        std::iter::once(Use { key: host, guest: false }).chain(guest)
    }

    /// Two parts together; `None` when they take more than there is.
    pub(super) fn join(&self, room: &Room, a: Key, b: Key) -> Option<Key> {
        let key = Key { counts: a.counts + b.counts, flags: a.flags | b.flags };
        if self.negatives.read(key.counts) > 1 {
            return None;
        }
        let caps = room.caps[self.tamper(key) as usize].as_ref()?;
        let within = self.sets.iter().zip(caps).all(|((_, field), cap)| field.read(key.counts) <= *cap);
        within.then_some(key)
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

    /// How many items of each trigger class are served.
    pub(super) fn served(&self, key: Key) -> Vec<u32> {
        self.classes.iter().map(|field| field.read(key.counts)).collect()
    }

    /// The part of a key that says which trigger classes are served.
    pub(super) fn class_bits(&self, key: Key) -> u128 {
        self.classes.iter().map(|f| (f.mask << f.shift) & key.counts).sum()
    }

    /// Whether every loop that goes onto another's input has one to go to.
    pub(super) fn guests_have_hosts(key: Key) -> bool {
        let hosts = key.flags >> 1 & HOSTS;
        let guests = key.flags >> 2 & HOSTS;
        guests & !hosts == 0
    }

    /// Whether `a` takes nothing that `b` does not take, in every respect.
    pub(super) fn takes_no_more(&self, a: Key, b: Key) -> bool {
        let fields = self.sets.iter().map(|(_, f)| f).chain(&self.classes).chain([&self.negatives]);
        let mut counts = fields.map(|f| (f.read(a.counts), f.read(b.counts)));
        (a.flags & !TAMPER) == (b.flags & !TAMPER)
            && (a.flags & TAMPER) <= (b.flags & TAMPER)
            && counts.all(|(a, b)| a <= b)
    }
}

/// Every second bit: the place of host flags after shifting.
const HOSTS: u128 = u128::MAX / 3;

fn host_flag(group: usize) -> u128 {
    1 << (1 + 2 * group)
}

fn guest_flag(group: usize) -> u128 {
    1 << (2 + 2 * group)
}
