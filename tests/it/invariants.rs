//! What must hold of every job whatever is on its cards, looked at from outside: pack.json beside the cards, the pages
//! beside pack.json, the figures with a fact taken away.
//!
//! `WIRELORE_CASES=1000 cargo test --test it invariants` looks at so many random jobs; a plain run at fewer;
//! `WIRELORE_SITE=7` at number 7 alone.

mod facts;
pub(crate) mod made;
pub(crate) mod mapping;
pub(crate) mod screws;
pub(crate) mod totals;

use crate::pages::demo;
use crate::sites::{Knobs, Site};
use made::Made;
use rayon::prelude::*;

/// How many random jobs are looked at when nobody says. Where a fact is taken away, the pages of these are read; of more
/// jobs the Markdown they are made from, in half the time.
const CASES: u64 = 140;

/// How many random jobs are looked at: as many as `WIRELORE_CASES` says.
pub(crate) fn cases() -> u64 {
    given("WIRELORE_CASES").unwrap_or(CASES)
}

fn given(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// Looks at random jobs of every kind.
fn every_job(check: impl Fn(u64, &Site) -> Result<(), String> + Sync) {
    let kinds = Knobs::kinds();
    let numbers = given("WIRELORE_SITE").map_or(0..cases(), |number| number..number + 1);
    numbers.into_par_iter().for_each(|number| {
        let knobs = &kinds[usize::try_from(number).expect("small") % kinds.len()];
        let site = Site::dressed(number, knobs);
        if let Err(wrong) = check(number, &site) {
            panic!("site {number} of {knobs:?}: {wrong}");
        }
    });
}

/// Every core once, between screws that are there, no screw for two; totals are the sums of their parts; Markdown, page
/// and JSON tell the same mapping.
#[test]
fn cores_screws_totals_and_pages_agree() {
    every_job(|_, site| {
        let made = Made::of(site);
        mapping::every_core_once(&made)?;
        mapping::both_ends_are_there(&made)?;
        screws::none_for_two(&made)?;
        totals::check(&made)?;
        mapping::pages_agree(&made)
    });
}

#[test]
fn a_fact_that_is_lacking_is_never_made_up() {
    every_job(|number, site| facts::check(site, if number < CASES { demo::page } else { demo::markdown }));
}
