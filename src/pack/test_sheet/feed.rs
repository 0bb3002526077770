//! The feed and the board's supplies, with nothing hanging on them.

use super::{Case, Measure, Must, Stage};
use crate::land::volts::{Moment, supply_volts};
use crate::model::{Power, PowerSource, Supply};
use crate::units::Volts;

pub(super) fn stage(case: &Case) -> Stage {
    let how = vec![
        "Nothing on the board but its feed; mains on, standby battery off.".to_string(),
        "A few tenths of a volt either way is right, for as long as it stays in the window (common practice)."
            .to_string(),
        "The mains screws are LIVE: one hand, insulated probes, tips bare 4 mm at most.".to_string(),
    ];
    let mut rows: Vec<Measure> = source(case).into_iter().collect();
    rows.extend(feed(case));
    rows.extend(case.job.board.supplies.iter().enumerate().map(|(at, supply)| supply_row(case, at, supply)));
    Stage::new("Feed and supplies, nothing connected", how, rows)
}

/// The output of what feeds the board, where that is another unit.
fn source(case: &Case) -> Option<Measure> {
    let source = case.job.source.as_ref().filter(|s| *s.power != Power::Board)?;
    let name = source.unit.name();
    let state = match source.power {
        Power::Panel => "old panel on with its links fitted; the wire to the board not on yet",
        _ => "mains on; the wire to the board not on yet",
    };
    let row = Measure::new(&name, format!("output of {name}")).when(state).at(out_marks(source));
    Some(row.reads(Must::about(source.block.and_then(|b| b.volts), "V")))
}

/// The marks of a source's output.
fn out_marks(source: &PowerSource) -> String {
    let out = source.block.and_then(|b| b.out.as_ref());
    out.map_or_else(|| "its output, marks not known".into(), |(p, n)| format!("{p} and {n}"))
}

/// The board's own feed screws.
fn feed(case: &Case) -> Option<Measure> {
    let feed = case.job.board.feed.as_ref();
    let source = case.job.source.as_ref();
    let terminals = feed.and_then(|f| f.terminals.as_ref());
    if source.is_some_and(|s| *s.power == Power::Board) && terminals.is_none() {
        return None;
    }
    let probes = terminals.map_or_else(|| "its feed screws, marks not known".into(), |(p, n)| format!("{p} and {n}"));
    let volts = source.and_then(|s| s.block).and_then(|b| b.volts);
    let must = Must::about(volts, "V").within(feed.and_then(|f| f.volts));
    Some(Measure::new("feed", "feed of the board").when("fed, nothing else connected").at(probes).reads(must))
}

/// One supply of the board.
fn supply_row(case: &Case, at: usize, supply: &Supply) -> Measure {
    let volts = supply_volts(case.job, at, Moment::Mains).and_then(Volts::new);
    let fuse = supply.fuse.as_ref().map(|mark| format!("; its fuse {mark} in")).unwrap_or_default();
    Measure::new(&supply.supply, format!("board supply {}", supply.supply))
        .when(format!("no core on it{fuse}"))
        .at(format!("{} and {}", supply.positive, supply.negative))
        .reads(Must::about(volts, "V"))
}
