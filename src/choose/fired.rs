//! Which items are alike to the outputs, and how many of them the outputs can take.

use super::outputs::{Demand, Outputs};
use super::site::{Site, SiteItem, SiteTrigger};
use std::collections::BTreeSet;

/// The trigger class of each item and what one item of each class asks; no classes when the outputs can serve all
/// items without mixing names, for then they never decide.
pub(super) fn trigger_classes(site: &Site, outputs: &mut Outputs<'_>) -> (Vec<Option<usize>>, Vec<Vec<Demand>>) {
    let demands_of = |item: &SiteItem| -> Vec<Demand> {
        let demand = |t: &SiteTrigger| Demand { trigger: t.clone(), supply: item.supply };
        item.triggers.iter().map(demand).collect()
    };
    let fired = |item: &&SiteItem| !item.options.is_empty() && !item.triggers.is_empty();
    let everything = site.items.iter().filter(fired).flat_map(demands_of).collect();
    if outputs.fewest_mixed(everything) == Some(0) {
        return (vec![None; site.items.len()], Vec::new());
    }
    let mut classes: Vec<Vec<Demand>> = Vec::new();
    let class_of = site.items.iter().map(|item| {
        fired(&item).then(|| {
            let demands = demands_of(item);
            classes.iter().position(|c| *c == demands).unwrap_or_else(|| {
                classes.push(demands);
                classes.len() - 1
            })
        })
    });
    (class_of.collect(), classes)
}

/// How many ways of leaving items out are tried to learn how many the outputs can take.
const LEFT_OUT_TRIES: usize = 300;

/// The most items with triggers that the outputs could take together. Tries to leave out none, then one of any class,
/// then two …; where that takes too many tries, what was not yet ruled out.
pub(super) fn most_fired(outputs: &mut Outputs<'_>, classes: &[Vec<Demand>], sizes: &[u32]) -> u32 {
    let all: u32 = sizes.iter().sum();
    let mut tries = 0;
    let mut kept: BTreeSet<Vec<u32>> = std::iter::once(sizes.to_vec()).collect();
    for out in 0..all {
        for counts in &kept {
            tries += 1;
            let demands = classes.iter().zip(counts).flat_map(|(demands, n)| {
                std::iter::repeat_n(demands, usize::try_from(*n).unwrap_or(0)).flatten().cloned()
            });
            if tries > LEFT_OUT_TRIES || outputs.can(demands.collect()) {
                return all - out;
            }
        }
        let fewer = |counts: &Vec<u32>| -> Vec<Vec<u32>> {
            let one_less = |at: usize| {
                let mut less = counts.clone();
                less[at] = less[at].checked_sub(1)?;
                Some(less)
            };
            (0..counts.len()).filter_map(one_less).collect()
        };
        kept = kept.iter().flat_map(fewer).collect();
    }
    0
}
