//! `confirm-on-site`: a siren, strobe, hold-off or supply terminal that is known from a label or from hearsay only,
//! or from nothing. Letters on sounder strips mean different things on different panels; a wrong one sounds the
//! sounder at head height. And anything else that the job uses where a site measured something else than the card
//! says: whoever reads the pack must measure it here.

mod sites;

use super::case::Case;
use super::types::{Finding, Level};
use crate::model::{CoreUse, JobCable, Panel, Standing};

const CODE: &str = "confirm-on-site";

pub(super) fn find(case: &Case<'_>) -> Vec<Finding> {
    let mut marks: Vec<(&str, bool)> = siren_marks(case.job.panel).into_iter().map(|m| (m, false)).collect();
    if case.panel_feeds() {
        let out = case.job.panel.unit.power.get().and_then(|p| p.out.as_ref());
        marks.extend(out.into_iter().flat_map(|(plus, minus)| [(plus.as_str(), true), (minus.as_str(), true)]));
    }
    let mut found: Vec<Finding> = Vec::new();
    for (mark, feeds) in marks {
        let Some(says) = doubt(case.job.panel, mark) else { continue };
        let level = if feeds || uses(case, mark) { Level::Blocker } else { Level::Warning };
        match found.iter_mut().find(|f| f.about == mark) {
            Some(same) => same.level = same.level.min(level),
            None => found.push(Finding::blocker(CODE, mark, says).at(level)),
        }
    }
    let others = sites::find(case);
    found.extend(others.into_iter().filter(|other| !siren_marks(case.job.panel).contains(&other.about.as_str())));
    found
}

/// The marks that the panel's siren block names.
fn siren_marks(panel: &Panel) -> Vec<&str> {
    let Some(siren) = panel.siren.get() else { return Vec::new() };
    let tamper = siren.tamper.get();
    let ends = [siren.hold_off.get(), siren.negative.get()].into_iter().flatten();
    let triggers = siren.triggers.iter().map(|t| &t.terminal);
    let tamper = tamper.into_iter().flat_map(|t| std::iter::once(&t.terminal).chain(t.with.as_ref()));
    ends.chain(triggers).chain(tamper).map(String::as_str).collect()
}

/// Why a terminal's row can't be relied on; `None`: it can, or the card has no such row.
fn doubt(panel: &Panel, mark: &str) -> Option<String> {
    let terminal = panel.unit.terminal(mark)?;
    let does = terminal.does.as_deref().map(|d| format!(" ({d})")).unwrap_or_default();
    let wrong = match Standing::at_sites(&terminal.cite, terminal.evidence) {
        _ if terminal.evidence.disagree > 0 => sites::disagree(&format!("{mark}{does}"), terminal.evidence),
        Standing::Unverified => format!("What {mark}{does} does is known from no source"),
        Standing::LabelOnly => format!("What {mark}{does} does is known from a label or hearsay only"),
        Standing::Confirmed | Standing::Measured | Standing::Manual => return None,
    };
    let measure = if fired_by(panel, mark).is_empty() {
        "Measure it against the battery's negative with the mains on and off"
    } else {
        "Measure it against the battery's negative at rest and while the panel fires"
    };
    Some(format!("{wrong}. {measure}, and put that on the card or in \"settled\"."))
}

/// The triggers that a mark fires.
fn fired_by<'a>(panel: &'a Panel, mark: &str) -> Vec<&'a str> {
    let triggers = panel.siren.get().into_iter().flat_map(|s| &s.triggers);
    triggers.filter(|t| t.terminal == mark).map(|t| t.trigger.as_str()).collect()
}

/// Whether a kept item has a core on the mark today, or the trigger that the mark fires.
fn uses(case: &Case<'_>, mark: &str) -> bool {
    let names = fired_by(case.job.panel, mark);
    case.kept().any(|item| {
        let triggered = item.device.triggers.iter().any(|t| names.contains(&t.trigger.as_str()));
        let cables = item.cables.iter().filter_map(|c| case.job.cables.get(*c));
        triggered || cables.into_iter().any(|c| has_core_on(c, item.name(), mark))
    })
}

/// Whether the item's own or shared core of this cable is on the mark.
fn has_core_on(cable: &JobCable<'_>, item: &str, mark: &str) -> bool {
    cable.cores.iter().any(|core| {
        let shared = core.function.as_ref().is_some_and(crate::model::Function::is_supply);
        matches!(&core.on, CoreUse::Mark(m) if m == mark) && (shared || core.owner == Some(item))
    })
}
