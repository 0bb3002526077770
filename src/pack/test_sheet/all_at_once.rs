//! Everything in alarm at once: what the supplies and the source then give.

use super::{Case, Measure, Must, Stage};
use crate::model::Supply;

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "Every device in alarm, every sounder and strobe fired. Ears protected, neighbours and receiving centre told, \
         nobody on a ladder; as short as the reading allows."
            .to_string(),
    ];
    let supplies =
        case.job.board.supplies.iter().filter_map(|supply| {
            row(case, &format!("supply:{}", supply.supply), &supply.supply, supply_probes(supply))
        });
    let mut rows: Vec<Measure> = supplies.collect();
    rows.extend(row(case, "source", "source", source_probes(case)));
    rows.push(battery(case));
    Stage::new("Everything in alarm at once", how, rows)
}

fn row(case: &Case, what: &str, about: &str, probes: String) -> Option<Measure> {
    let row = case.electrics.loading.iter().find(|l| l.what == what)?;
    let measure = Measure::new(about, format!("current of {}", row.name));
    let must = Must::at_most(&row.alarm, &row.alarm_limit);
    Some(measure.when("mains on; everything in alarm").at(probes).reads(must).judged(row.ok))
}

/// Where a meter goes in series with a board supply.
pub(super) fn supply_probes(supply: &Supply) -> String {
    let fuse = supply.fuse.as_ref().map(|mark| format!(", or across the clips of fuse {mark} taken out"));
    format!("in series, between {} and its cores{}", supply.positive, fuse.unwrap_or_default())
}

fn source_probes(case: &Case) -> String {
    let block = case.job.source.as_ref().and_then(|s| s.block);
    match block.and_then(|b| b.out.as_ref()) {
        Some((positive, _)) => format!("in series, between {positive} and what it feeds"),
        None => "in series with what it feeds".into(),
    }
}

/// What the battery must then give alone.
fn battery(case: &Case) -> Measure {
    let asked = &case.battery.alarm_hours.text;
    let mut must = Must::words(case.battery.alarm.text.clone(), "A");
    must.expected = case.battery.alarm.value;
    Measure::new("battery", format!("current out of the battery in alarm (asked for {asked})"))
        .when("MAINS OFF; everything in alarm")
        .at("in series with the battery lead, 10 A range")
        .reads(must)
}
