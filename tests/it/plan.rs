//! The plan against brute force: the whole choice, ties and all, on small random sites, with at least 300 cases
//! of each thing that makes a plan hard; and what must hold of every landed plan.

#[path = "plan/brute.rs"]
mod brute;
#[path = "plan/colours.rs"]
mod colours;
#[path = "plan/doubled.rs"]
mod doubled;
#[path = "plan/landed.rs"]
mod landed;
#[path = "plan/loops.rs"]
mod loops;
#[path = "plan/options.rs"]
mod options;
#[path = "plan/same.rs"]
mod same;
#[path = "plan/wiring.rs"]
mod wiring;

use crate::sites::{Knobs, Site};
use brute::{Answer, brute, with_free_outputs};
use same::assert_same;
use wirelore::choose::choose;
use wirelore::land::land;
use wirelore::model::{Job, Returns};

/// How many cases of each class must be seen.
const CASES: u32 = 300;
/// How many sites may be tried for them.
const TRIES: u64 = 6_000;

/// Compares choice and brute force on sites of a kind until `CASES` of them were such that `happened`.
fn compare(knobs: &Knobs, happened: impl Fn(&Job<'_>, &Answer) -> bool) {
    let mut cases = 0;
    for number in 0..TRIES {
        let site = Site::new(number, knobs);
        let job = site.job();
        let answer = brute(&job).expect("leaving every item unserved is always possible");
        assert_same(&job, &answer, &choose(&job), number);
        cases += u32::from(happened(&job, &answer));
        if cases >= CASES {
            return;
        }
    }
    panic!("only {cases} cases among {TRIES} sites");
}

#[test]
fn unserved_items() {
    compare(&Knobs::few_cores(), |_, answer| answer.cost.unserved_must + answer.cost.unserved_want > 0);
}

#[test]
fn shared_inputs() {
    compare(&Knobs::few_inputs(), |_, answer| answer.cost.shared > 0);
}

/// The plan would be a better one if the board had an output for every trigger.
#[test]
fn scarce_outputs() {
    compare(&Knobs::few_outputs(), |job, answer| with_free_outputs(job).is_some_and(|free| free.cost < answer.cost));
}

#[test]
fn one_core_tampers() {
    compare(&Knobs::one_core_tampers(), |job, answer| {
        let one_core = |item: usize| job.items[item].device.tamper_returns() == Some(Returns::Negative);
        answer.items.iter().enumerate().any(|(item, pick)| pick.as_ref().is_some_and(|p| p.joins && one_core(item)))
    });
}

/// Two board supplies feed items on one cable.
#[test]
fn two_supplies() {
    compare(&Knobs::two_supplies(), |_, answer| {
        let fed = answer.items.iter().flatten().filter_map(|pick| pick.supply.map(|supply| (pick.cable, supply)));
        let mut fed: Vec<(usize, usize)> = fed.collect();
        fed.sort_unstable();
        fed.dedup();
        fed.windows(2).any(|pair| pair[0].0 == pair[1].0)
    });
}

#[test]
fn several_optima() {
    compare(&Knobs::small(), |_, answer| answer.optima > 1);
}

/// Nothing is scarce: every item is served, and the later numbers and the ties decide.
#[test]
fn everything_served() {
    compare(&Knobs::small(), |_, answer| answer.items.iter().all(Option::is_some));
}

/// What must hold of every landed plan, on sites of up to 20 items.
#[test]
fn landed_plans() {
    let mut doubled = 0;
    for number in 0..100 {
        doubled += land_and_check(&Knobs::hard(4, 20), number);
        doubled += land_and_check(&Knobs { crowd: 60, ..Knobs::two_supplies() }, number);
        doubled += land_and_check(&Knobs { items: (6, 14), ..Knobs::one_core_tampers() }, number);
    }
    assert!(doubled >= CASES / 3, "only {doubled} doubled cores");
}

/// Lands a site's plan twice and checks it; gives back how many cores were doubled.
fn land_and_check(knobs: &Knobs, number: u64) -> u32 {
    let site = Site::new(number, knobs);
    let job = site.job();
    let choice = choose(&job);
    let plan = land(&job, choice.clone());
    assert_eq!(plan, land(&job, choose(&job)), "site {number}: another plan the second time");
    assert_eq!(plan.choice, choice, "site {number}: not the choice that was given");
    if let Err(wrong) = landed::check(&job, &plan) {
        panic!("site {number} of {knobs:?}: {wrong}");
    }
    let cores = plan.cables.iter().flat_map(|cable| &cable.cores);
    u32::try_from(cores.filter(|core| core.doubled).count()).unwrap_or(0)
}

/// Many more sites of every kind than a commit needs: `cargo test --test it long_search -- --ignored`.
#[test]
#[ignore = "takes minutes"]
fn long_search() {
    let small = Knobs::small();
    let kinds = [
        small,
        Knobs::few_inputs(),
        Knobs::few_outputs(),
        Knobs::few_cores(),
        Knobs::one_core_tampers(),
        Knobs::two_supplies(),
        Knobs { items: (6, 7), ..small },
        Knobs { items: (4, 5), places: 1, new: 80, ..small },
        Knobs { items: (5, 7), ..Knobs::few_inputs() },
        Knobs { items: (5, 6), sounders: 60, outputs: (2, 3), supplies: (2, 3), ..small },
    ];
    for knobs in kinds {
        for number in TRIES..TRIES + 2_000 {
            let site = Site::new(number, &knobs);
            let job = site.job();
            assert_same(&job, &brute(&job).expect("there is a plan"), &choose(&job), number);
        }
    }
}
