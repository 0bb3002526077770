//! Everything connected: what the supplies and the source give at rest, and with everything in alarm at once.

use super::{Case, Measure, Must, Stage};
use crate::model::Supply;
use crate::pack::electrics::LoadingRow;

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "The meter goes in without a break: clip it across first, then open the wire or take the fuse out. A supply \
         that breaks resets detectors and takes hold-off away."
            .to_string(),
        "In alarm: every device in alarm, every sounder and strobe fired; ears protected, neighbours and receiving \
         centre told, nobody on a ladder; as short as the reading allows."
            .to_string(),
    ];
    let mut rows: Vec<Measure> = Vec::new();
    for supply in &case.job.board.supplies {
        rows.extend(currents(case, &format!("supply:{}", supply.supply), &supply.supply, &supply_probes(supply)));
    }
    rows.extend(currents(case, "source", "source", &source_probes(case)));
    rows.push(battery(case));
    Stage::new("Everything connected: at rest, then all in alarm at once", how, rows)
}

/// What a row of the loading table says, at rest and in alarm.
fn currents(case: &Case, what: &str, about: &str, probes: &str) -> Vec<Measure> {
    let Some(row) = case.electrics.loading.iter().find(|l| l.what == what) else { return Vec::new() };
    let measure = |state: &str, must: Must| {
        Measure::new(about, format!("current of {}", row.name)).when(state).at(probes).reads(must)
    };
    let LoadingRow { standby, limit, alarm, alarm_limit, ok, .. } = row;
    vec![
        measure("mains on; everything at rest, not set", Must::at_most(standby, limit)),
        measure("mains on; everything in alarm", Must::at_most(alarm, alarm_limit)).judged(*ok),
    ]
}

/// Where a meter goes in series with a board supply.
fn supply_probes(supply: &Supply) -> String {
    let fuse = supply.fuse.as_ref().map(|mark| format!(", or across the clips of fuse {mark}"));
    format!("in series between {} and its cores{}", supply.positive, fuse.unwrap_or_default())
}

/// Where a meter goes in series with what feeds the board.
fn source_probes(case: &Case) -> String {
    let block = case.job.source.as_ref().and_then(|s| s.block);
    match block.and_then(|b| b.out.as_ref()) {
        Some((positive, _)) => format!("in series between {positive} and what it feeds"),
        None => "in series with what it feeds".into(),
    }
}

/// What the battery must then give alone.
fn battery(case: &Case) -> Measure {
    let asked = &case.battery.alarm_hours.text;
    let must = Must::worked(&case.battery.alarm, "A");
    Measure::new("battery", format!("current out of the battery in alarm (asked for {asked})"))
        .when("MAINS OFF; everything in alarm")
        .at("in series with the battery lead, 10 A range")
        .reads(must)
}
