//! Why an item is left without a wiring, found beside the finished choice.

use super::Shortage;
use super::outputs::Demand;
use super::search::Problem;
use super::site::{Opt, blocked_shortage};

/// The reason for one unserved item, given what all items got.
pub(super) fn shortage(problem: &mut Problem<'_>, chosen: &[Option<Opt>], index: usize) -> Shortage {
    if let Some(blocked) = blocked_shortage(&problem.site.items[index]) {
        return blocked;
    }
    if problem.site.items[index].options.is_empty() {
        return Shortage::NoCable;
    }
    let item = &problem.site.items[index];
    let short = item.options.iter().map(|opt| cores_short(problem, chosen, index, opt)).min();
    if let Some((short, needs)) = short.filter(|(short, _)| *short > 0) {
        return Shortage::Cores { short, needs };
    }
    output_short(problem, chosen, index).unwrap_or(Shortage::Inputs)
}

/// How many cores an option is short on its cable, and how many it needs there.
fn cores_short(problem: &Problem<'_>, chosen: &[Option<Opt>], index: usize, opt: &Opt) -> (u32, u32) {
    let site = &problem.site;
    let mut sides: Vec<(Option<usize>, usize)> = Vec::new();
    let mut used = 0;
    for (item, other) in site.items.iter().zip(chosen) {
        let Some(other) = other.as_ref().filter(|o| o.cable == opt.cable) else { continue };
        used += other.cores;
        sides.extend((0..2).filter(|side| item.needs[*side]).map(|side| (item.supply, side)));
    }
    sides.sort_unstable();
    sides.dedup();
    let item = &site.items[index];
    let pair = (0..2).filter(|side| item.needs[*side]);
    let more = pair.clone().filter(|side| !sides.contains(&(item.supply, *side))).count();
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let want = used + count(sides.len()) + opt.cores + count(more);
    (want.saturating_sub(site.cables[opt.cable].capacity), opt.cores + count(pair.count()))
}

/// The first trigger of the item for which the outputs have no room beside what they fire already.
fn output_short(problem: &mut Problem<'_>, chosen: &[Option<Opt>], index: usize) -> Option<Shortage> {
    let site = &problem.site;
    let mut demands: Vec<Demand> = Vec::new();
    for (item, _) in site.items.iter().zip(chosen).filter(|(_, opt)| opt.is_some()) {
        demands.extend(item.triggers.iter().map(|t| Demand { trigger: t.clone(), supply: item.supply }));
    }
    let item = &site.items[index];
    let (supply, triggers) = (item.supply, item.triggers.clone());
    for trigger in triggers {
        demands.push(Demand { trigger: trigger.clone(), supply });
        if problem.outputs.fewest_mixed(demands.clone()).is_none() {
            return Some(Shortage::Outputs { trigger: trigger.name, fires: trigger.fires });
        }
    }
    None
}
