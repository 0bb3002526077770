//! The order of cables from top to bottom: so that their cores cross little on the way to their screws.

use crate::pack::drawing::{CableWiring, End};

/// The cables in an order with few crossings.
pub(super) fn ordered<'a>(cables: &[&'a CableWiring]) -> Vec<&'a CableWiring> {
    let ends: Vec<Ends> = cables.iter().map(|cable| Ends::of(cable)).collect();
    let costs: Vec<Vec<usize>> = ends.iter().map(|a| ends.iter().map(|b| a.crossings_above(b)).collect()).collect();
    let cost = |a: usize, b: usize| costs.get(a).and_then(|row| row.get(b)).copied().unwrap_or(0);
    let survey: Vec<usize> = (0..cables.len()).collect();
    let mut by_screw = survey.clone();
    by_screw.sort_by_key(|at| ends.get(*at).map(Ends::middle));
    let tried = [settled(survey, &cost), settled(by_screw, &cost)];
    let best = tried.into_iter().min_by_key(|order| total(order, &cost)).unwrap_or_default();
    best.iter().filter_map(|at| cables.get(*at)).copied().collect()
}

/// Neighbours change places while that lowers the sum of `cost` over all pairs, so it ends.
pub(super) fn settled(mut order: Vec<usize>, cost: &impl Fn(usize, usize) -> usize) -> Vec<usize> {
    loop {
        let mut changed = false;
        for at in 1..order.len() {
            if let Some([a, b]) = order.get_mut(at - 1..=at)
                && cost(*b, *a) < cost(*a, *b)
            {
                std::mem::swap(a, b);
                changed = true;
            }
        }
        if !changed {
            return order;
        }
    }
}

fn total(order: &[usize], cost: &impl Fn(usize, usize) -> usize) -> usize {
    let below = |at: usize| order.get(at + 1..).unwrap_or_default();
    order.iter().enumerate().map(|(at, a)| below(at).iter().map(|b| cost(*a, *b)).sum::<usize>()).sum()
}

/// The screws of a cable's cores, on the old panel and on the new board.
struct Ends {
    old: Vec<usize>,
    new: Vec<usize>,
}

impl Ends {
    fn of(cable: &CableWiring) -> Self {
        let screw = |end: &End| match end {
            End::Screw(at) => Some(*at),
            End::Insulated(_) | End::Elsewhere(_) | End::NotKnown(_) => None,
        };
        let side =
            |of: fn(&crate::pack::drawing::Line) -> &End| cable.lines.iter().filter_map(|l| screw(of(l))).collect();
        Self { old: side(|l| &l.from), new: side(|l| &l.to) }
    }

    /// How many pairs of cores cross when this cable is above the other.
    fn crossings_above(&self, below: &Self) -> usize {
        inversions(&self.old, &below.old) + inversions(&self.new, &below.new)
    }

    /// Where its screws are on average, in hundredths; a cable without any is last.
    fn middle(&self) -> usize {
        let all = || self.new.iter().chain(&self.old);
        let count = all().count();
        (all().sum::<usize>() * 100).checked_div(count).unwrap_or(usize::MAX)
    }
}

fn inversions(above: &[usize], below: &[usize]) -> usize {
    above.iter().map(|a| below.iter().filter(|b| a > *b).count()).sum()
}
