//! The step that keeps a sounder with a battery of its own from sounding at head height.

use super::Step;
use super::sounder::{Bell, Fate, activating, before_the_mains, no_battery, reach, stayed_up};
use crate::model::Job;
use crate::pack::names::CoreName;
use crate::work::{Figures, Verdict};

/// The step that isolates the sounders' own batteries; `None` when none may have one.
pub(super) fn own_battery(job: &Job, figures: &Figures, bells: &[Bell]) -> Option<Step> {
    let any = bells.iter().any(Bell::may_activate);
    if !any {
        return None;
    }
    let first = before_the_mains(job, figures, bells);
    let why = if !first {
        "The mains is off; the panel's battery was seen to carry it and still holds the sounder off."
    } else if no_battery(job) {
        "The mains is still ON and must stay on: no battery is there, so switching off would sound it at head height."
    } else if figures.battery.verdict == Verdict::Replace {
        "The mains is still ON and must stay on: the battery is not fit to hold the sounder off."
    } else if stayed_up(job) {
        "The mains is still ON and stays on until the sounder that can't be reached is held off by something else."
    } else {
        "The mains is still ON and must stay on: nobody has seen the panel stay up on its battery, so switching off may \
         sound it at head height."
    };
    let mut lines = vec![why.to_string()];
    for bell in bells {
        lines.extend(one_bell(job, bell));
    }
    let reachable = bells.iter().any(|b| b.may_activate() && !b.out_of_reach());
    let title = if !reachable {
        "BEFORE the mains is touched: keep the sounder held off, for it can't be reached"
    } else if first {
        "BEFORE the mains is touched: isolate the sounder's own battery"
    } else {
        "Isolate the sounder's own battery while the panel still holds it off"
    };
    Some(Step::new("own-battery", title, lines))
}

/// What to do at one sounder.
fn one_bell(job: &Job, bell: &Bell) -> Vec<String> {
    if !bell.may_activate() {
        return vec![format!("{}: {}. Nothing to do here.", bell.name, activating(bell))];
    }
    let mut lines = vec![format!("{} (cable {}): {}; {}.", bell.name, bell.cable, activating(bell), reach(bell))];
    if bell.out_of_reach() {
        lines.push(format!(
            "{}: keep its hold-off alive. Put a separate fused 12 V battery across {}, polarity proved; with it on, lift \
             both cores off the panel and insulate them; leave it on until the new board holds the sounder off. Or agree \
             the noise beforehand with all who will hear it, ears protected, nobody near it (common practice).",
            bell.name,
            hold_off_cores(job, &bell.cable)
        ));
        lines.extend(removed_triggers(job, bell));
        return lines;
    }
    lines.push(format!(
        "{}: ears protected, safe footing. Open the lid (water inside: stop), unplug or lift its own battery, see that \
         it stays silent.",
        bell.name
    ));
    if bell.reach.is_none() {
        lines.push(format!("{}: if it turns out that it can't be reached, stop and plan again.", bell.name));
    }
    if bell.fate == Fate::Goes {
        lines.push(format!("{}: it is taken away, so its battery stays out.", bell.name));
    }
    lines
}

/// Triggers that fire by being taken away: lifting their core sounds a sounder that still has its feed.
fn removed_triggers(job: &Job, bell: &Bell) -> Option<String> {
    let triggers = job.panel.siren.get().map_or(&[][..], |s| s.triggers.as_slice());
    let marks: Vec<&str> =
        triggers.iter().filter(|t| t.fires.is_none_or(|f| !f.is_applied())).map(|t| t.terminal.as_str()).collect();
    (!marks.is_empty()).then(|| {
        format!(
            "{}: {} fires by being taken away, or nobody knows how: do not lift that core while the sounder has its feed.",
            bell.name,
            marks.join(" and ")
        )
    })
}

/// The cores on which a sounder is held off, in words.
fn hold_off_cores(job: &Job, cable: &str) -> String {
    let siren = job.panel.siren.get();
    let marks: Vec<&String> =
        siren.map(|s| [s.hold_off.get(), s.negative.get()].into_iter().flatten().collect()).unwrap_or_default();
    let cores = job.cables.iter().filter(|c| c.survey.cable == cable).flat_map(|c| &c.cores);
    let names: Vec<String> = cores
        .filter(|c| matches!(&c.on, crate::model::CoreUse::Mark(m) if marks.contains(&m)))
        .map(|c| format!("{} {cable} on {}", CoreName::new(c.colour).text(), c.on.word()))
        .collect();
    if names.is_empty() { "its hold-off cores (NOT KNOWN: trace them first)".into() } else { names.join(" and ") }
}
