//! The plan's choice: which cable, wiring, input and output each item gets, as the true optimum of one ordered
//! cost. Integers only, and the same result every time.

mod assign;
mod cost;
mod fired;
mod inputs;
mod key;
mod outputs;
mod place;
mod rest;
mod search;
mod shortage;
mod site;
mod types;

use crate::model::Job;
use place::UNSERVED;
use search::Problem;
use site::{Opt, Site, TamperUse};

pub(crate) use site::{own_functions, supply_needs};
pub use types::{Choice, Chosen, Cost, Method, Shortage};

/// Chooses for a whole job. Always gives a choice; `Choice::proven` says whether it is the optimum for certain.
#[must_use]
pub fn choose(job: &Job<'_>) -> Choice {
    let mut problem = Problem::new(Site::new(job), job.board);
    let solution = problem.solve();
    let chosen: Vec<Option<Opt>> = problem
        .site
        .items
        .iter()
        .zip(&solution.row)
        .map(|(item, option)| item.options.get(usize::from(*option)).filter(|_| *option != UNSERVED).cloned())
        .collect();
    let refs: Vec<Option<&Opt>> = chosen.iter().map(Option::as_ref).collect();
    let cost = cost::unpack(solution.cost);
    let inputs = assign::inputs(job.board, &problem.site, &refs, cost.shared);
    let mut outputs = assign::outputs(&mut problem.outputs, &problem.site, &refs, solution.mixed);
    let mut items = Vec::with_capacity(chosen.len());
    for (index, opt) in chosen.iter().enumerate() {
        items.push(match opt {
            None => Err(shortage::shortage(&mut problem, &chosen, index)),
            Some(opt) => Ok(Chosen {
                cable: opt.cable,
                method: opt.method,
                supply: problem.site.items[index].supply,
                input: inputs.of[index],
                outputs: std::mem::take(&mut outputs[index]),
                in_tamper_loop: opt.tamper != TamperUse::Apart,
            }),
        });
    }
    Choice { items, tamper_input: inputs.tamper, cost, mixed_outputs: solution.mixed, proven: solution.proven }
}
