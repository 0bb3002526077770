//! `fuse-differs`: a fuse of another speed, or a smaller one, than the card's. It opens too early or too late.

use super::case::Case;
use super::fuse_larger::is_larger;
use super::types::Finding;
use crate::model::{FuseFound, FuseSpeed};

const CODE: &str = "fuse-differs";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    case.job.survey.fuses.iter().filter_map(|(mark, found)| of_fuse(case, mark, found)).collect()
}

fn of_fuse(case: &Case<'_>, mark: &str, found: &FuseFound) -> Option<Finding> {
    let card = case.job.panel.unit.fuse(mark)?;
    let FuseFound::Fitted(rating, speed) = found else { return None };
    if is_larger(card, found) {
        return None;
    }
    let smaller = card.rating.filter(|r| rating.get() < r.get() - 1e-9);
    let other_speed = card.speed.zip(*speed).filter(|(card, found)| card != found);
    let wrong: Vec<String> = [
        smaller.map(|r| format!("{rating}, not {r}")),
        other_speed.map(|(card, found)| format!("speed {}, not {}", found.word(), card.word())),
    ]
    .into_iter()
    .flatten()
    .collect();
    if wrong.is_empty() {
        return None;
    }
    let right = [card.rating.map(|r| r.to_string()), card.speed.map(FuseSpeed::word).map(String::from)];
    let right: Vec<String> = right.into_iter().flatten().collect();
    let says = format!("Fuse {mark} is {}. Fit {}.", wrong.join(" and "), right.join(" "));
    Some(Finding::warning(CODE, mark, says))
}
