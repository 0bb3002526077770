//! Too few volts at the far end: more cores, a shorter run, thicker cores, less current. Too many: less at the source.

use super::super::Drop;
use super::show;
use crate::formula::cure::{least_area, longest_run};
use crate::formula::drop::volts_left;
use crate::formula::sum::SPARE;
use crate::land::volts::{Line, Moment, PairAmps, line_amps, lines, own_alarm, pair_amps, supply_volts};
use crate::land::{Plan, SupplyPair, To, ohms_per_metre};
use crate::model::{Function, Item, Job};

/// More cores than this on one side are not looked at.
const MOST_CORES: usize = 24;

/// So many cores on each side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cores {
    /// Positive cores.
    pub positive: usize,
    /// Negative cores.
    pub negative: usize,
}

impl Cores {
    /// All of them.
    fn sum(self) -> usize {
        self.positive + self.negative
    }
}

/// What would bring an item's volts into its window. `None` in a field: that way does not do.
#[derive(Debug, Clone, PartialEq)]
pub struct DropCure {
    /// The cable, as an index into the job's.
    pub cable: usize,
    /// The cores there are.
    pub now: Cores,
    /// The fewest cores that do, of equals those that leave most volts.
    pub cores: Option<Cores>,
    /// Free usable cores of the cable.
    pub spare: usize,
    /// Cores of the cable's type.
    pub cable_cores: usize,
    /// The longest run in metres that does, with the cores there are.
    pub longest: Option<f64>,
    /// How long the run is.
    pub length: f64,
    /// The smallest cross-section in mm² of copper that does, over the length and with the cores there are.
    pub least_area: Option<f64>,
    /// Amperes that would have to leave both sides of the pair, of what else hangs on it.
    pub move_amps: Option<f64>,
    /// The first other item of the pair that does when another pair feeds it, as an index into the job's.
    pub move_item: Option<usize>,
    /// The least that the source must give for any cable to do, when it gives less.
    pub source_least: Option<f64>,
    /// The most that the source may give, when the item gets too much.
    pub source_most: Option<f64>,
}

/// An item's lines, with all that its volts rest on.
struct Look<'a> {
    lines: Vec<Line<'a>>,
    amps: PairAmps,
    source: f64,
    low: f64,
    ohms: f64,
    metres: f64,
    now: Cores,
}

impl Look<'_> {
    /// The lowest volts over all lines.
    fn lowest(&self, amps: PairAmps, cores: Cores) -> Option<f64> {
        let at = |line: &Line<'_>| {
            let sum = line_amps(line, amps, cores.positive, cores.negative)?;
            Some(volts_left(self.source, sum, self.ohms, self.metres))
        };
        self.lines.iter().map(at).try_fold(f64::INFINITY, |least, volts| volts.map(|v| least.min(v)))
    }

    /// Whether the item has its low volts.
    fn passes(&self, amps: PairAmps, cores: Cores) -> bool {
        self.lowest(amps, cores).is_some_and(|volts| volts + SPARE >= self.low)
    }

    /// The largest sum of currents along a line.
    fn most_amps(&self) -> Option<f64> {
        let sums = self.lines.iter().map(|line| line_amps(line, self.amps, self.now.positive, self.now.negative));
        sums.into_iter().try_fold(0.0, |most: f64, sum| sum.map(|s| most.max(s)))
    }
}

/// What would cure an item's volts; `None` when they are within or not known.
#[must_use]
pub fn drop(job: &Job<'_>, plan: &Plan, row: &Drop) -> Option<DropCure> {
    if row.ok != Some(false) {
        return None;
    }
    let pair = plan.pair_of(row.item)?;
    let look = look(job, plan, row, pair)?;
    let most = row.mains.value?.max(row.battery_end.value?);
    let budget = look.source - look.low;
    let low = row.mains.value?.min(row.battery_end.value?) + SPARE < look.low;
    let sum = look.most_amps()?;
    let when = |wrong: bool, cure: Option<f64>| cure.filter(|_| wrong);
    let (move_amps, move_item) = if low {
        (amps_to_move(job, &look, pair, row.item), item_to_move(job, &look, pair, row.item))
    } else {
        (None, None)
    };
    Some(DropCure {
        cable: row.cable,
        now: look.now,
        cores: if low { fewest(&look) } else { None },
        spare: spare(job, plan, row.cable),
        cable_cores: job.cables.get(row.cable)?.cores.len(),
        longest: when(low, longest_run(budget, sum, look.ohms)),
        length: look.metres,
        least_area: when(low, least_area(budget, sum, look.metres, job.survey.temperature.get())),
        move_amps,
        move_item,
        source_least: when(low && budget < SPARE, Some(source(job, pair, f64::min)? + look.low - look.source)),
        source_most: row
            .needs_high
            .filter(|high| most > high + SPARE)
            .and_then(|high| Some(source(job, pair, f64::max)? - (most - high))),
    })
}

/// The lower or the higher of the source's own volts on mains and at the battery's end.
fn source(job: &Job<'_>, pair: &SupplyPair, pick: fn(f64, f64) -> f64) -> Option<f64> {
    let drop = job.board.supplies.get(pair.supply)?.drop.get();
    Some(
        pick(supply_volts(job, pair.supply, Moment::Mains)?, supply_volts(job, pair.supply, Moment::BatteryEnd)?)
            + drop,
    )
}

/// All that an item's volts rest on.
fn look<'a>(job: &'a Job<'_>, plan: &Plan, row: &Drop, pair: &SupplyPair) -> Option<Look<'a>> {
    let volts = |moment| supply_volts(job, pair.supply, moment);
    Some(Look {
        lines: lines(job.items.get(row.item)?.device),
        amps: pair_amps(job, pair),
        source: volts(Moment::Mains)?.min(volts(Moment::BatteryEnd)?),
        low: row.needs_low?,
        ohms: ohms_per_metre(job, job.cables.get(pair.cable)?.kind)?,
        metres: plan.lengths.get(pair.cable).copied().flatten()?.longest,
        now: Cores { positive: pair.positive.len(), negative: pair.negative.len() },
    })
}

/// The fewest cores that do: of equally many, those that leave the most volts.
fn fewest(look: &Look<'_>) -> Option<Cores> {
    let (p, n) = (look.now.positive, look.now.negative);
    let most = |side: usize| if side == 0 { 0 } else { MOST_CORES };
    let all = (p..=most(p).max(p))
        .flat_map(|positive| (n..=most(n).max(n)).map(move |negative| Cores { positive, negative }));
    let passing = all.filter(|cores| look.passes(look.amps, *cores));
    passing.min_by(|a, b| {
        let volts = |cores: &Cores| look.lowest(look.amps, *cores).unwrap_or(f64::NEG_INFINITY);
        a.sum().cmp(&b.sum()).then_with(|| volts(b).total_cmp(&volts(a))).then_with(|| b.negative.cmp(&a.negative))
    })
}

/// How many cores of a cable are free and usable.
fn spare(job: &Job<'_>, plan: &Plan, cable: usize) -> usize {
    let Some((seen, planned)) = job.cables.get(cable).zip(plan.cables.get(cable)) else { return 0 };
    let both = seen.cores.iter().zip(&planned.cores);
    both.filter(|(seen, planned)| seen.usable && planned.function == Function::Spare && planned.to == To::Park).count()
}

/// What the own supplies of the other items of a pair take, which flows through both of its sides.
fn others_own(job: &Job<'_>, pair: &SupplyPair, item: usize) -> Option<f64> {
    let others = pair.items.iter().filter(|other| **other != item);
    others.filter_map(|other| job.items.get(*other)).map(|other| own_alarm(other.device)).sum()
}

/// The amperes that must leave both sides of a pair, when other items of it take so much.
fn amps_to_move(job: &Job<'_>, look: &Look<'_>, pair: &SupplyPair, item: usize) -> Option<f64> {
    let part = |used: bool, cores: usize| match u32::try_from(cores) {
        Ok(n) if used && n > 0 => 1.0 / f64::from(n),
        _ => 0.0,
    };
    let allowed = (look.source - look.low) / (look.ohms * look.metres);
    let mut most = 0.0_f64;
    for line in &look.lines {
        let sum = line_amps(line, look.amps, look.now.positive, look.now.negative)?;
        let share = part(line.positive, look.now.positive) + part(line.negative, look.now.negative);
        most = most.max((sum - allowed) / share);
    }
    let movable = others_own(job, pair, item)?;
    (most.is_finite() && most > 0.0 && most <= movable + SPARE).then_some(most)
}

/// The first other item without which the pair leaves volts enough.
fn item_to_move(job: &Job<'_>, look: &Look<'_>, pair: &SupplyPair, item: usize) -> Option<usize> {
    let others = pair.items.iter().copied().filter(|other| *other != item);
    let without = |other: usize| {
        let items = pair.items.iter().copied().filter(|i| *i != other).collect();
        pair_amps(job, &SupplyPair { items, ..pair.clone() })
    };
    others.into_iter().find(|other| look.passes(without(*other), look.now))
}

impl DropCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self, job: &Job<'_>) -> String {
        let too_much = self.source_most.map(|most| format!("The source may give at most {}.", show::volts_down(most)));
        let too_little = self.source_least.map(|least| {
            format!(
                "No cable helps: the source must give at least {} before the cable takes anything.",
                show::volts_up(least)
            )
        });
        let ways = self.ways(job);
        let ways = (!ways.is_empty()).then(|| format!("Any one of these would do: {}.", ways.join("; ")));
        let texts: Vec<String> = [too_much, too_little.or(ways)].into_iter().flatten().collect();
        if texts.is_empty() { "Only a device that takes less would do.".to_string() } else { texts.join(" ") }
    }

    /// Each way that does.
    fn ways(&self, job: &Job<'_>) -> Vec<String> {
        let mut ways: Vec<String> = self.cores.map(|cores| self.cores_text(job, cores)).into_iter().collect();
        ways.extend(self.longest.filter(|longest| *longest >= 0.1).map(|longest| {
            format!("a run of at most {} (now {})", show::metres_down(longest), show::metres(self.length))
        }));
        ways.extend(self.least_area.map(|area| format!("copper cores of at least {}", show::area_up(area))));
        ways.extend(self.move_amps.map(|amps| format!("{} less on this pair", show::amps_up(amps))));
        let name = self.move_item.and_then(|item| job.items.get(item)).map(Item::name);
        ways.extend(name.map(|name| format!("{name} fed over another pair")));
        ways
    }

    /// How many cores, and whether the cable has them.
    fn cores_text(&self, job: &Job<'_>, cores: Cores) -> String {
        let more = cores.sum() - self.now.sum();
        let cable = job.cables.get(self.cable).map_or("the cable", |c| c.survey.cable.as_str());
        let has = if self.spare >= more {
            format!("{cable} has {} free", self.spare)
        } else {
            format!("{cable} has {} free, so a cable of {} cores", self.spare, self.cable_cores + more - self.spare)
        };
        format!(
            "{} positive and {} negative cores (now {} and {}; {has})",
            cores.positive, cores.negative, self.now.positive, self.now.negative
        )
    }
}
