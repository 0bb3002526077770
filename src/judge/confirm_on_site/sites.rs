//! Facts that a site's measurement disagrees about.

use super::super::case::Case;
use super::super::types::{Finding, Level};
use super::CODE;
use crate::land::To;
use crate::model::{CoreUse, Evidence, Unit};

/// What the job uses of the panel's and the board's cards and a site measured otherwise: terminals with cores on them,
/// the fuses, the links, the screws of the new board.
pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let panel = &case.job.panel.unit;
    let cores = case.job.cables.iter().flat_map(|cable| &cable.cores);
    let is_on = |mark: &str| cores.clone().any(|core| matches!(&core.on, CoreUse::Mark(on) if on == mark));
    let mut found: Vec<Finding> = disputed(panel, str::to_owned, is_on);
    let board = &case.job.board.unit;
    let landed = case.plan.cables.iter().flat_map(|cable| &cable.cores);
    let lands_on = |mark: &str| landed.clone().any(|core| matches!(&core.to, To::Terminal(to) if to == mark));
    // The board's marks are named with its card: the old panel may have the same ones.
    found.extend(disputed(board, |mark| format!("{} {mark}", board.id), lands_on));
    found
}

/// The disputed facts of a card, each as a warning: of its terminals those that are `used`, and every fuse and link.
fn disputed(unit: &Unit, named: impl Fn(&str) -> String, used: impl Fn(&str) -> bool) -> Vec<Finding> {
    let terminals = unit.terminals.iter().filter(|t| used(&t.mark)).map(|t| (&t.mark, t.does.as_ref(), t.evidence));
    let fuses = unit.fuses.iter().map(|f| (&f.mark, f.guards.as_ref(), f.evidence));
    let links = unit.links.iter().map(|l| (&l.mark, Some(&l.does), l.evidence));
    let all = terminals.chain(fuses).chain(links).filter(|(_, _, evidence)| evidence.disagree > 0);
    all.map(|(mark, does, evidence)| finding(unit, &named(mark), mark, does, evidence)).collect()
}

fn finding(unit: &Unit, about: &str, mark: &str, does: Option<&String>, evidence: Evidence) -> Finding {
    let does = does.map(|does| format!(" ({does})")).unwrap_or_default();
    let says = format!(
        "{}. Read the notes on {}, measure it here, and put what is right on the card or in \"settled\".",
        disagree(&format!("{mark}{does}"), evidence),
        unit.name(),
    );
    Finding::blocker(CODE, about, says).at(Level::Warning)
}

/// That sites disagree, as a sentence without its full stop.
pub(super) fn disagree(what: &str, evidence: Evidence) -> String {
    let sites = if evidence.disagree == 1 { "1 site".to_owned() } else { format!("{} sites", evidence.disagree) };
    let agreed = match evidence.agree {
        0 => String::new(),
        1 => ", at 1 site as it says".to_owned(),
        many => format!(", at {many} sites as it says"),
    };
    format!("{what} was measured at {sites} otherwise than the card says{agreed}: see the notes")
}
