//! What would serve the items that the plan leaves: a cable, a relay, an expander.

use super::Part;
use crate::choose::{Method, Shortage, own_functions, supply_needs};
use crate::land::Plan;
use crate::model::{Fact, Item, Job};

/// What would serve the unserved, item by item.
pub(super) fn unserved(job: &Job, plan: &Plan) -> Vec<Part> {
    let reasons = plan.choice.items.iter().zip(&job.items);
    reasons.filter_map(|(chosen, item)| part(job, item, chosen.as_ref().err()?)).collect()
}

fn part(job: &Job, item: &Item, shortage: &Shortage) -> Option<Part> {
    let name = item.name();
    match shortage {
        Shortage::NoCable => Some(cable(name, item.fit.place.as_deref(), most_cores(item))),
        Shortage::Cores { needs, .. } => {
            let needs = usize::try_from(*needs).unwrap_or(usize::MAX);
            Some(cable(name, item.fit.place.as_deref(), needs))
        }
        Shortage::Outputs { trigger, fires } => Some(Part::new(
            1,
            "relay, 12 V coil, change-over contact, with a diode across its coil",
            format!("{name}: no output is left that fires its {trigger} by {}", fires.word()),
        )),
        Shortage::Inputs => Some(Part::new(
            1,
            format!("input expander for {}", job.board.unit.name()),
            format!("{name}: no input of the wiring it needs is left"),
        )),
        Shortage::NotPlanned(_) => None,
    }
}

/// A new cable: its cores are known, its length is not.
fn cable(item: &str, place: Option<&str>, cores: usize) -> Part {
    let place = place.map(|p| format!(" to {p}")).unwrap_or_default();
    let what = format!("new alarm cable, {cores} cores or more, length not known: ............ m");
    Part::new(1, what, format!("{item} (unserved){place}"))
}

/// The cores with which every contact of an item is watched.
fn most_cores(item: &Item) -> usize {
    let alarm = matches!(item.device.alarm, Fact::Is(_));
    let tamper = matches!(item.device.tamper, Fact::Is(_));
    let method = match (alarm, tamper) {
        (true, true) => Method::Pairs,
        (true, false) => Method::AlarmOnly,
        (false, true) => Method::TamperOnly,
        (false, false) => Method::None,
    };
    let supply = supply_needs(item).into_iter().filter(|needed| *needed).count();
    own_functions(item, method).len() + supply
}
