//! The optimum by trying everything. Written from section 5.1 alone; it cuts a branch only where what is chosen
//! so far already costs more than a whole plan that was found, or can't be wired whatever comes after.

use super::options::{Need, Way, needs, rail_core};
use super::wiring::{Inputs, Outputs};
use std::collections::BTreeMap;
use wirelore::choose::{Cost, Method};
use wirelore::model::{Job, Wiring};

/// What brute force says of one item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Pick {
    pub(crate) cable: usize,
    pub(crate) method: Method,
    pub(crate) supply: Option<usize>,
    pub(crate) input: Option<usize>,
    pub(crate) outputs: Vec<usize>,
    pub(crate) joins: bool,
}

/// What brute force says of a whole job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Answer {
    pub(crate) items: Vec<Option<Pick>>,
    pub(crate) tamper_input: Option<usize>,
    pub(crate) cost: Cost,
    /// Trigger names beyond the first on an output.
    pub(crate) mixed: u32,
    /// How many choices of cables and methods are as good as the best.
    pub(crate) optima: u64,
}

/// The optimum of a job; `None` in the case that the empty plan is impossible, which it never is.
pub(crate) fn brute(job: &Job<'_>) -> Option<Answer> {
    Search::new(job, false).run()
}

/// The optimum if the board had an output for every trigger.
pub(crate) fn with_free_outputs(job: &Job<'_>) -> Option<Answer> {
    Search::new(job, true).run()
}

/// The choice of each item so far: a place in its list of ways, or `None` for unserved.
type Chosen = Vec<Option<usize>>;

/// The wiring of each item's loop, whether there is a tamper loop, and whether a one-core tamper is in it.
type LoopsWanted = (Vec<Option<Wiring>>, bool, bool);

struct Search<'a> {
    job: &'a Job<'a>,
    needs: Vec<Need>,
    usable: Vec<usize>,
    free_outputs: bool,
    best: Option<(Cost, u32)>,
    first: Chosen,
    optima: u64,
    known_inputs: BTreeMap<LoopsWanted, Option<u32>>,
    known_outputs: BTreeMap<Vec<bool>, Option<u32>>,
}

impl<'a> Search<'a> {
    fn new(job: &'a Job<'a>, free_outputs: bool) -> Self {
        let usable = job.cables.iter().map(|c| c.cores.iter().filter(|core| core.usable).count()).collect();
        Self {
            job,
            needs: needs(job),
            usable,
            free_outputs,
            best: None,
            first: Vec::new(),
            optima: 0,
            known_inputs: BTreeMap::new(),
            known_outputs: BTreeMap::new(),
        }
    }

    fn run(mut self) -> Option<Answer> {
        self.descend(&mut Vec::new());
        let (cost, mixed) = self.best?;
        let first = self.first.clone();
        let inputs = self.inputs(&first);
        let (on, tamper_input) = inputs.first(cost.shared)?;
        let outputs =
            if self.free_outputs { vec![Vec::new(); first.len()] } else { self.outputs(&first).first(mixed)? };
        let pick = |(item, chosen): (usize, &Option<usize>)| {
            let way = &self.needs[item].ways[(*chosen)?];
            Some(Pick {
                cable: way.cable,
                method: way.method,
                supply: self.needs[item].supply,
                input: on[item],
                outputs: outputs[item].clone(),
                joins: way.joins,
            })
        };
        let items = first.iter().enumerate().map(pick).collect();
        Some(Answer { items, tamper_input, cost, mixed, optima: self.optima })
    }

    /// Tries every option of the next item, in the order that breaks ties.
    fn descend(&mut self, chosen: &mut Chosen) {
        let sum = self.sum(chosen, chosen.len() == self.needs.len());
        if self.best.is_some_and(|(best, _)| sum > best) || !self.cores_suffice(chosen) {
            return;
        }
        let Some(shared) = self.least_shared(chosen) else { return };
        let Some(mixed) = self.least_mixed(chosen) else { return };
        if chosen.len() == self.needs.len() {
            self.weigh(chosen, Cost { shared, ..sum }, mixed);
            return;
        }
        let ways = self.needs[chosen.len()].ways.len();
        for option in (0..ways).map(Some).chain([None]) {
            chosen.push(option);
            self.descend(chosen);
            chosen.pop();
        }
    }

    /// Keeps the first of the best.
    fn weigh(&mut self, chosen: &Chosen, cost: Cost, mixed: u32) {
        match self.best {
            Some(best) if (cost, mixed) > best => {}
            Some(best) if (cost, mixed) == best => self.optima += 1,
            _ => {
                self.best = Some((cost, mixed));
                self.first.clone_from(chosen);
                self.optima = 1;
            }
        }
    }

    fn way(&self, item: usize, option: Option<usize>) -> Option<&Way> {
        self.needs[item].ways.get(option?)
    }

    /// The served items so far.
    fn served<'s>(&'s self, chosen: &'s Chosen) -> impl Iterator<Item = (usize, &'s Need, &'s Way)> {
        let all = chosen.iter().enumerate();
        all.filter_map(|(item, option)| self.way(item, *option).map(|way| (item, &self.needs[item], way)))
    }

    /// The numbers that only grow as items are added; with `whole`, the moved supply cores too, which a kept
    /// item can make fewer. `shared` is left at nothing.
    fn sum(&self, chosen: &Chosen, whole: bool) -> Cost {
        let mut cost = Cost::default();
        for (item, option) in chosen.iter().enumerate() {
            match self.way(item, *option) {
                None if self.needs[item].want => cost.unserved_want += 1,
                None => cost.unserved_must += 1,
                Some(way) => {
                    cost.unmonitored += u32::from(way.unmonitored);
                    cost.opened += u32::from(way.opened);
                    cost.moved += way.own_moved;
                    cost.used += count(way.own.len());
                }
            }
        }
        for cable in 0..self.usable.len() {
            for polarity in [0, 1] {
                let rails = self.rails(chosen, cable, polarity);
                cost.used += rails;
                if whole {
                    cost.moved += rails - u32::from(self.keeps_rail(chosen, cable, polarity));
                }
            }
        }
        cost
    }

    /// How many supply cores of one polarity a cable needs: one for each supply that feeds an item that needs it.
    fn rails(&self, chosen: &Chosen, cable: usize, polarity: usize) -> u32 {
        let needing = self.served(chosen).filter(|(_, need, way)| way.cable == cable && need.rails[polarity]);
        let mut supplies: Vec<Option<usize>> = needing.map(|(_, need, _)| need.supply).collect();
        supplies.sort_unstable();
        supplies.dedup();
        count(supplies.len())
    }

    /// "A supply core is not moved when some kept item planned there uses a supply core of that polarity and the
    /// core is that cable's surveyed, usable one."
    fn keeps_rail(&self, chosen: &Chosen, cable: usize, polarity: usize) -> bool {
        let kept = |(_, need, way): (usize, &Need, &Way)| need.keep && way.cable == cable && need.rails[polarity];
        rail_core(self.job, cable, polarity == 0).is_some() && self.served(chosen).any(kept)
    }

    fn cores_suffice(&self, chosen: &Chosen) -> bool {
        (0..self.usable.len()).all(|cable| {
            let own: usize =
                self.served(chosen).filter(|(_, _, way)| way.cable == cable).map(|(_, _, way)| way.own.len()).sum();
            let rails = self.rails(chosen, cable, 0) + self.rails(chosen, cable, 1);
            count(own) + rails <= count(self.usable[cable])
        })
    }

    fn inputs(&self, chosen: &Chosen) -> Inputs<'_> {
        let loops = (0..self.needs.len())
            .map(|item| self.way(item, chosen.get(item).copied().flatten()).and_then(|way| way.method.wiring()))
            .collect();
        let joining = || self.served(chosen).filter(|(_, _, way)| way.joins);
        Inputs {
            board: self.job.board,
            sharing: self.needs.iter().map(|need| need.sharing.clone()).collect(),
            loops,
            tampers: joining().count(),
            one_cores: joining().filter(|(_, need, _)| need.one_core).count(),
        }
    }

    fn outputs(&self, chosen: &Chosen) -> Outputs<'_> {
        let served = |item: usize| self.way(item, chosen.get(item).copied().flatten()).is_some();
        let of = |item: usize, need: &Need| if served(item) { need.triggers.clone() } else { Vec::new() };
        Outputs {
            board: self.job.board,
            triggers: self.needs.iter().enumerate().map(|(item, need)| of(item, need)).collect(),
            supplies: self.needs.iter().map(|need| need.supply).collect(),
        }
    }

    /// The least loops beyond the first on an input; `None` when the inputs do not suffice.
    fn least_shared(&mut self, chosen: &Chosen) -> Option<u32> {
        let inputs = self.inputs(chosen);
        if inputs.one_cores > 1 {
            return None;
        }
        let key = (inputs.loops.clone(), inputs.tampers > 0, inputs.one_cores > 0);
        if let Some(known) = self.known_inputs.get(&key) {
            return *known;
        }
        let least = (0..=count(chosen.len())).find(|limit| inputs.first(*limit).is_some());
        self.known_inputs.insert(key, least);
        least
    }

    /// The least trigger names beyond the first on an output; `None` when the outputs do not suffice.
    fn least_mixed(&mut self, chosen: &Chosen) -> Option<u32> {
        if self.free_outputs {
            return Some(0);
        }
        let outputs = self.outputs(chosen);
        let key: Vec<bool> = outputs.triggers.iter().map(|t| !t.is_empty()).collect();
        if let Some(known) = self.known_outputs.get(&key) {
            return *known;
        }
        let most = count(outputs.triggers.iter().map(Vec::len).sum());
        let least = (0..=most).find(|limit| outputs.first(*limit).is_some());
        self.known_outputs.insert(key, least);
        least
    }
}

fn count(things: usize) -> u32 {
    u32::try_from(things).unwrap_or(u32::MAX)
}
