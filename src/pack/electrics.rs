//! The electrical figures: volts at the far end, loading, loops and what the meter must show.

use super::figure::{Figure, Whys};
use super::names::{cable_name, core_of, item_name, ok, state, wiring};
use crate::land::Plan;
use crate::model::{Function, Job, LoopState, Wiring};
use crate::units::{Amps, Ohms, Volts};
use crate::work::{Drop, Figures, Loading, LoopFigure, StateFigure, cure};
use serde::Serialize;

/// The figures as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ElectricsView {
    /// Volts at the far end.
    pub drops: Vec<DropRow>,
    /// Loading.
    pub loading: Vec<LoadingRow>,
    /// Loops.
    pub loops: Vec<LoopRow>,
}

/// Volts at one item.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DropRow {
    /// The item.
    pub item: String,
    /// Its cable.
    pub cable: String,
    /// Positive cores in parallel.
    pub positive_cores: usize,
    /// Negative cores in parallel.
    pub negative_cores: usize,
    /// On mains.
    pub mains: Figure,
    /// When the battery is nearly flat.
    pub battery_end: Figure,
    /// The device's low volts.
    pub needs_low: Figure,
    /// The device's high volts.
    pub needs_high: Figure,
    /// Whether both are within.
    pub ok: Option<bool>,
    /// The same in words.
    pub ok_text: &'static str,
    /// What would cure it, when it fails.
    pub cure: Option<String>,
}

/// One row of the loading table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LoadingRow {
    /// The word of pack.json.
    pub what: String,
    /// The same for a reader.
    pub name: String,
    /// At rest.
    pub standby: Figure,
    /// In alarm.
    pub alarm: Figure,
    /// What it may carry at rest.
    pub limit: Figure,
    /// What it may carry in alarm.
    pub alarm_limit: Figure,
    /// Whether both are within.
    pub ok: Option<bool>,
    /// The same in words.
    pub ok_text: &'static str,
    /// What would cure it, when it fails.
    pub cure: Option<String>,
}

/// A loop.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LoopRow {
    /// The board's input.
    pub input: String,
    /// Its two screws.
    pub screws: String,
    /// Its items, in loop order.
    pub items: Vec<String>,
    /// The same, with commas.
    pub names: String,
    /// The word of pack.json.
    pub wiring: &'static str,
    /// The same for a reader.
    pub wiring_text: &'static str,
    /// Whether it is the tamper loop.
    pub tamper: bool,
    /// Its states.
    pub states: Vec<StateRow>,
    /// What would cure it, when it fails.
    pub cure: Option<String>,
}

/// A loop in one state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StateRow {
    /// The word of pack.json.
    pub state: &'static str,
    /// The same for a reader.
    pub state_text: &'static str,
    /// Whether the circuit is open then.
    pub open: bool,
    /// Nominal.
    pub ohms: Figure,
    /// At the low end.
    pub low: Figure,
    /// At the high end.
    pub high: Figure,
    /// From low to high as one text; `open`.
    pub range: String,
    /// What the board reports: the word of pack.json.
    pub reads: Option<&'static str>,
    /// The same for a reader.
    pub reads_text: String,
    /// Whether it reads as it should.
    pub ok: Option<bool>,
    /// The same in words.
    pub ok_text: &'static str,
}

/// The figures of a job.
#[must_use]
pub fn electrics(job: &Job, plan: &Plan, figures: &Figures, whys: &mut Whys) -> ElectricsView {
    ElectricsView {
        drops: figures.drops.iter().map(|d| drop(job, plan, d, whys)).collect(),
        loading: figures.loading.iter().map(|l| loading(job, plan, (&figures.loading, l), whys)).collect(),
        loops: figures.loops.iter().map(|l| run(job, plan, l, whys)).collect(),
    }
}

fn drop(job: &Job, plan: &Plan, figure: &Drop, whys: &mut Whys) -> DropRow {
    let item = item_name(job, figure.item);
    DropRow {
        item: item.into(),
        cable: cable_name(job, figure.cable).into(),
        positive_cores: figure.positive_cores,
        negative_cores: figure.negative_cores,
        mains: whys.figure("volts", &format!("{item}, on mains"), &figure.mains, Volts::new),
        battery_end: whys.figure("volts", &format!("{item}, battery nearly flat"), &figure.battery_end, Volts::new),
        needs_low: Figure::given(figure.needs_low, Volts::new),
        needs_high: Figure::given(figure.needs_high, Volts::new),
        ok: figure.ok,
        ok_text: ok(figure.ok),
        cure: cure::drop(job, plan, figure).map(|cure| cure.text(job)),
    }
}

fn loading(job: &Job, plan: &Plan, (all, figure): (&[Loading], &Loading), whys: &mut Whys) -> LoadingRow {
    let name = loading_name(&figure.what);
    LoadingRow {
        standby: whys.figure("load", &format!("{name}, at rest"), &figure.standby, Amps::new),
        alarm: whys.figure("load", &format!("{name}, in alarm"), &figure.alarm, Amps::new),
        limit: Figure::given(figure.limit, Amps::new),
        alarm_limit: Figure::given(figure.alarm_limit, Amps::new),
        ok: figure.ok,
        ok_text: if figure.near { "yes, but over 75 %" } else { ok(figure.ok) },
        cure: cure::loading_text(job, plan, all, figure),
        what: figure.what.clone(),
        name,
    }
}

/// A loading row's name for a reader.
pub(super) fn loading_name(what: &str) -> String {
    match what.split(':').collect::<Vec<_>>().as_slice() {
        ["source"] => "the power source".into(),
        ["supply", name @ ..] => format!("board supply {}", name.join(":")),
        ["fuse", "panel", mark @ ..] => format!("fuse {} of the old panel", mark.join(":")),
        ["fuse", "board", mark @ ..] => format!("fuse {} of the board", mark.join(":")),
        ["fuse", "supply", mark @ ..] => format!("fuse {} of the power supply", mark.join(":")),
        ["output", name @ ..] => format!("output {}", name.join(":")),
        ["core", cable @ ..] => format!("one core of {}", cable.join(":")),
        _ => what.to_string(),
    }
}

fn run(job: &Job, plan: &Plan, figure: &LoopFigure, whys: &mut Whys) -> LoopRow {
    let input = job.board.inputs.get(figure.input);
    let name = input.map_or_else(String::new, |i| i.input.clone());
    let items: Vec<String> = figure.items.iter().map(|i| item_name(job, *i).to_string()).collect();
    let states = figure.states.iter().map(|s| in_state(figure, &name, s, whys)).collect();
    LoopRow {
        screws: screws(job, plan, figure),
        names: items.join(", "),
        items,
        wiring: figure.wiring.word(),
        wiring_text: wiring(Some(figure.wiring)),
        tamper: figure.tamper,
        states,
        cure: cure::loops(job, plan, figure).map(|cure| cure.text(job)),
        input: name,
    }
}

/// The two screws between which a loop is measured, with the cores that go there: its input's, or for a tamper loop
/// that ends at the supply negative, that of the last item's supply.
fn screws(job: &Job, plan: &Plan, figure: &LoopFigure) -> String {
    let Some(input) = job.board.inputs.get(figure.input) else { return String::new() };
    let (out, back) = if figure.tamper {
        (Function::Tamper, Function::TamperReturn)
    } else {
        (Function::Alarm, Function::AlarmReturn)
    };
    let run = plan.loops.iter().find(|l| l.input == figure.input && l.tamper == figure.tamper);
    let last = run.filter(|l| l.ends_at_negative).and_then(|l| l.items.last());
    let negative = last.and_then(|i| plan.pair_of(*i)).and_then(|pair| job.board.supplies.get(pair.supply));
    let first = end(job, plan, figure.items.first(), &out);
    match negative {
        Some(supply) => {
            let last = end(job, plan, figure.items.last(), &Function::SupplyNegative);
            format!("{}{first} and {}{last}, the supply negative", input.out, supply.negative)
        }
        None => format!("{}{first} and {}{}", input.out, input.back, end(job, plan, figure.items.last(), &back)),
    }
}

/// The core of an item that does this, as a tail in brackets.
fn end(job: &Job, plan: &Plan, item: Option<&usize>, does: &Function) -> String {
    let planned = item.and_then(|i| plan.item(*i));
    let core = planned.and_then(|p| {
        let cores = &plan.cables.get(p.cable)?.cores;
        p.cores
            .iter()
            .filter_map(|k| cores.get(*k))
            .find(|c| c.function == *does)
            .map(|c| core_of(job, p.cable, &c.colour))
    });
    core.map(|name| format!(" ({name})")).unwrap_or_default()
}

fn in_state(run: &LoopFigure, input: &str, figure: &StateFigure, whys: &mut Whys) -> StateRow {
    let of = format!("input {input}, {}", state(figure.state));
    let ohms = if figure.open { Figure::open() } else { whys.figure("loop", &of, &figure.ohms, Ohms::new) };
    let low = Figure::given(figure.low, Ohms::new);
    let high = Figure::given(figure.high, Ohms::new);
    let range = match (figure.open, figure.low, figure.high) {
        (true, ..) => "open".into(),
        (_, Some(_), Some(_)) if low.text == high.text => low.text.clone(),
        (_, Some(_), Some(_)) => format!("{} to {}", low.text, high.text),
        _ => "not known".into(),
    };
    StateRow {
        state: figure.state.word(),
        state_text: state_text(run, figure.state),
        open: figure.open,
        ohms,
        low,
        high,
        range,
        reads: figure.reads.map(LoopState::word),
        reads_text: figure.reads.map_or_else(|| no_reading(figure).into(), |r| r.word().to_string()),
        ok: figure.ok,
        ok_text: ok(figure.ok),
    }
}

/// What to do to bring a loop into a state.
fn state_text(run: &LoopFigure, at: LoopState) -> &'static str {
    match (run.tamper, run.wiring, at) {
        (true, _, LoopState::Alarm) => "any lid open",
        (true, _, LoopState::Normal) => "all lids shut",
        (_, Wiring::DoubleEol, LoopState::Tamper) => "lid open, or pair cut",
        _ => state(at),
    }
}

/// Why there is no reading: a gap between the bands, or something not known.
fn no_reading(figure: &StateFigure) -> &'static str {
    if figure.open || figure.ohms.value.is_some() { "undefined" } else { "not known" }
}
