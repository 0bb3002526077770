//! Volts at the far end of each item that is fed (section 5.2).

use super::Drop;
use super::origin;
use crate::formula::drop::volts_left;
use crate::formula::sum::{SPARE, within};
use crate::formula::{Given, Worked, finite};
use crate::land::volts::{CUTOFF_ASSUMED, Line, Moment, PairAmps, line_amps, lines, needs, pair_amps, supply_volts};
use crate::land::{Plan, PlannedItem, SupplyPair, ohms_per_metre};
use crate::model::{Device, Fact, Fires, Job, Returns};
use crate::units::{Amps, Volts};

/// A row for each served item that a supply pair feeds, in the job's order.
pub(super) fn drops(job: &Job<'_>, plan: &Plan) -> Vec<Drop> {
    plan.items.iter().filter_map(|served| row(job, plan, served)).collect()
}

/// The row of one item; `None` when nothing feeds it.
fn row(job: &Job<'_>, plan: &Plan, served: &PlannedItem) -> Option<Drop> {
    let pair = plan.pair_of(served.item)?;
    let device = job.items.get(served.item)?.device;
    let window = needs(device);
    let mains = volts(job, plan, served.item, pair, Moment::Mains);
    let battery_end = volts(job, plan, served.item, pair, Moment::BatteryEnd);
    let needs_low = window.map(|w| w.low.get());
    let needs_high = window.map(|w| w.high.get());
    let ok = within_window(mains.value, battery_end.value, needs_low, needs_high);
    Some(Drop {
        item: served.item,
        cable: pair.cable,
        positive_cores: pair.positive.len(),
        negative_cores: pair.negative.len(),
        mains,
        battery_end,
        needs_low,
        needs_high,
        ok,
        tamper_lift: tamper_lift(job, plan, served.item, pair),
    })
}

/// Whether the lower of two figures is at or above the low volts and the higher at or under the high volts.
fn within_window(first: Option<f64>, second: Option<f64>, low: Option<f64>, high: Option<f64>) -> Option<bool> {
    let (first, second) = first.zip(second)?;
    let under_high = within(Some(first.max(second)), high)?;
    Some(first.min(second) + SPARE >= low? && under_high)
}

/// Where and when volts are worked.
struct Look<'a> {
    job: &'a Job<'a>,
    plan: &'a Plan,
    pair: &'a SupplyPair,
    amps: PairAmps,
    moment: Moment,
}

/// The lowest of an item's lines at one moment.
fn volts(job: &Job<'_>, plan: &Plan, item: usize, pair: &SupplyPair, moment: Moment) -> Worked {
    let look = Look { job, plan, pair, amps: pair_amps(job, pair), moment };
    let device = job.items[item].device;
    let all = lines(device);
    let figures: Option<Vec<f64>> = all.iter().map(|line| at_line(&look, line)).collect();
    let lowest = figures.and_then(|volts| volts.into_iter().enumerate().min_by(|a, b| a.1.total_cmp(&b.1)));
    // When a line is not known, the first such one shows what is missing.
    let shown = lowest.map_or_else(|| all.iter().find(|l| at_line(&look, l).is_none()), |(index, _)| all.get(index));
    let formula = shown.map_or("Vs", formula);
    Worked::new(formula, given(&look, device, shown), lowest.map(|(_, volts)| volts))
}

/// Volts along one line.
fn at_line(look: &Look<'_>, line: &Line<'_>) -> Option<f64> {
    let pair = look.pair;
    let source = supply_volts(look.job, pair.supply, look.moment)?;
    let amps = line_amps(line, look.amps, pair.positive.len(), pair.negative.len())?;
    let ohms = ohms_per_metre(look.job, look.job.cables.get(pair.cable)?.kind)?;
    let length = look.plan.lengths.get(pair.cable).copied().flatten()?;
    finite(volts_left(source, amps, ohms, length.longest))
}

/// The formula of a line, in symbols.
pub(super) fn formula(line: &Line<'_>) -> &'static str {
    match (line.trigger.is_some(), line.positive) {
        (false, _) => "Vs - drop - (I+/n+ + I-/n-)·r·L",
        (true, true) => "Vs - drop - (I+/n+ + i)·r·L",
        (true, false) => "Vs - drop - (i + I-/n-)·r·L",
    }
}

/// The numbers behind a line.
fn given(look: &Look<'_>, device: &Device, line: Option<&Line<'_>>) -> Vec<Given> {
    let (job, pair) = (look.job, look.pair);
    let mut given = vec![source(job, look.moment)];
    given.extend(supply_drop(job, pair));
    if line.is_some_and(|l| l.positive) {
        given.extend(side("+", look.amps.positive, pair.positive.len()));
        given.extend(shares(job, pair, "+", Fires::NegativeApplied));
    }
    if line.is_some_and(|l| l.negative) {
        given.extend(side("-", look.amps.negative, pair.negative.len()));
        given.extend(shares(job, pair, "-", Fires::PositiveApplied));
    }
    if let Some(trigger) = line.and_then(|l| l.trigger) {
        given.push(Given::new(format!("i({})", trigger.trigger), trigger.current, origin::card(&device.id, &[])));
    }
    given.extend([origin::ohms_of_core(job, pair.cable), origin::temperature(job)]);
    given.push(origin::length(job, look.plan, pair.cable));
    given
}

/// What one side of a pair carries, and over how many cores.
fn side(sign: &str, amps: Option<f64>, cores: usize) -> [Given; 2] {
    [
        Given::new(format!("I{sign}"), amps.and_then(Amps::new), "sum of the alarm currents on this side, each below"),
        Given::new(format!("n{sign}"), Some(cores), "plan"),
    ]
}

/// What each item of a pair adds to one of its sides: its own current, its triggers that fire by removal, and those
/// that are fired the way that draws over this side.
fn shares(job: &Job<'_>, pair: &SupplyPair, sign: &str, applied: Fires) -> Vec<Given> {
    let items = pair.items.iter().filter_map(|item| job.items.get(*item));
    items
        .flat_map(|item| {
            let (name, device) = (item.name(), item.device);
            let card = origin::card(&device.id, &[]);
            let own = match &device.supply {
                Fact::Is(supply) => Some(Given::new(format!("I{sign}({name})"), supply.alarm, card.clone())),
                Fact::NotKnown | Fact::Absent => None,
            };
            let here = device.triggers.iter().filter(move |t| t.fires.is_some_and(|f| f == applied || !f.is_applied()));
            let fired =
                here.map(move |t| Given::new(format!("I{sign}({name}, {})", t.trigger), t.current, card.clone()));
            own.into_iter().chain(fired).collect::<Vec<_>>()
        })
        .collect()
}

/// The volts of the source at a moment.
fn source(job: &Job<'_>, moment: Moment) -> Given {
    let Some(source) = job.source.as_ref() else {
        return Given::new::<Volts>("Vs", None, "survey: what feeds the board");
    };
    let Some(block) = source.block else {
        return Given::new::<Volts>("Vs", None, origin::card(&source.unit.id, &[]));
    };
    let card = origin::card(&source.unit.id, &block.cite);
    match (moment, block.cutoff) {
        (Moment::Mains, _) => Given::new("Vs", block.volts, card),
        (Moment::BatteryEnd, Some(cutoff)) => Given::new("Vs", Some(cutoff), card),
        (Moment::BatteryEnd, None) => Given::new("Vs", Volts::new(CUTOFF_ASSUMED), "assumed: 1.75 V a cell"),
    }
}

/// What the board's supply loses.
fn supply_drop(job: &Job<'_>, pair: &SupplyPair) -> Option<Given> {
    let supply = job.board.supplies.get(pair.supply)?;
    let card = origin::card(&job.board.unit.id, &supply.cite);
    Some(Given::new("drop", Some(supply.drop), if supply.drop_given { card } else { "assumed".to_string() }))
}

/// Volts by which a one-core tamper's negative is lifted in alarm: `I-·r·L/n-`.
fn tamper_lift(job: &Job<'_>, plan: &Plan, item: usize, pair: &SupplyPair) -> Option<f64> {
    let one_core = job.items[item].device.tamper_returns() == Some(Returns::Negative);
    let joins = plan.tamper_loop().is_some_and(|l| l.items.contains(&item));
    if !(one_core && joins) {
        return None;
    }
    let cores = u32::try_from(pair.negative.len()).ok().filter(|n| *n > 0)?;
    let amps = pair_amps(job, pair).negative? / f64::from(cores);
    finite(amps * origin::core_ohms(job, plan, pair.cable, false)?)
}
