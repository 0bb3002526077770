//! A core that carries more than its cable is rated for: how many cores side by side would do.

use super::super::Loading;
use super::super::draws::{self, When};
use super::drop::Cores;
use super::show;
use crate::formula::cure::cores_for;
use crate::formula::sum::{SPARE, sum};
use crate::land::volts::pair_amps;
use crate::land::{Plan, SupplyPair};
use crate::model::{Fires, Job};
use crate::units::Amps;

/// What would bring the cores of a cable within its rating.
#[derive(Debug, Clone, PartialEq)]
pub struct CoreCure {
    /// What one core may carry.
    pub rating: f64,
    /// The board supply of each pair that has too few cores, as an index; its cores; the fewest that do.
    pub pairs: Vec<(usize, Cores, Cores)>,
    /// Each trigger whose own core carries too much: its item, its name, what it takes, the cores that do.
    pub triggers: Vec<(usize, String, f64, usize)>,
}

/// What would cure the row of a cable's cores; `None` for another row, or when nothing is wrong with it.
#[must_use]
pub fn cores(job: &Job<'_>, plan: &Plan, row: &Loading) -> Option<CoreCure> {
    let name = row.what.strip_prefix("core:").filter(|_| row.ok == Some(false))?;
    let cable = job.cables.iter().position(|cable| cable.survey.cable == name)?;
    let rating = row.limit?;
    let pairs = plan.pairs.iter().filter(|pair| pair.cable == cable);
    let pairs = pairs.filter_map(|pair| {
        let now = Cores { positive: pair.positive.len(), negative: pair.negative.len() };
        let needed = of_pair(job, pair, rating)?;
        (needed != now).then_some((pair.supply, now, needed))
    });
    let cure = CoreCure { rating, pairs: pairs.collect(), triggers: triggers(job, plan, cable, rating) };
    (!(cure.pairs.is_empty() && cure.triggers.is_empty())).then_some(cure)
}

/// The cores that a pair needs on each side, never fewer than it has.
fn of_pair(job: &Job<'_>, pair: &SupplyPair, rating: f64) -> Option<Cores> {
    let amps = pair_amps(job, pair);
    let rest = sum(&draws::items(job, pair.items.iter().copied(), When::Rest))?;
    let side = |there: usize, alarm: f64| match there {
        0 => Some(0),
        _ => Some(cores_for(alarm.max(rest), rating)?.max(there)),
    };
    Some(Cores {
        positive: side(pair.positive.len(), amps.positive?)?,
        negative: side(pair.negative.len(), amps.negative?)?,
    })
}

/// The triggers of a cable whose own core carries too much.
fn triggers(job: &Job<'_>, plan: &Plan, cable: usize, rating: f64) -> Vec<(usize, String, f64, usize)> {
    let here = |item: usize| plan.item(item).is_some_and(|served| served.cable == cable);
    let planned = plan.triggers.iter().filter(|trigger| here(trigger.item));
    planned
        .filter_map(|planned| {
            let trigger = job.items.get(planned.item)?.device.triggers.get(planned.trigger)?;
            let amps = trigger.current.map(Amps::get).filter(|amps| *amps > rating + SPARE)?;
            let own_core = trigger.fires.is_none_or(Fires::is_applied);
            own_core.then(|| Some((planned.item, trigger.trigger.clone(), amps, cores_for(amps, rating)?)))?
        })
        .collect()
}

impl CoreCure {
    /// The cure in words, numbers first.
    #[must_use]
    pub fn text(&self, job: &Job<'_>) -> String {
        let pairs = self.pairs.iter().map(|(supply, now, needed)| {
            let name = job.board.supplies.get(*supply).map_or("", |s| s.supply.as_str());
            format!(
                "{} positive and {} negative cores of {name} would do (now {} and {})",
                needed.positive, needed.negative, now.positive, now.negative
            )
        });
        let triggers = self.triggers.iter().map(|(item, trigger, amps, cores)| {
            let item = job.items.get(*item).map_or("", |i| i.name());
            format!("the {trigger} of {item} takes {} and needs {cores} cores side by side", show::amps(*amps))
        });
        let ways: Vec<String> = pairs.chain(triggers).collect();
        format!("At {} a core: {}.", show::amps(self.rating), ways.join("; "))
    }
}
