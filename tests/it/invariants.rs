//! What must hold of every job whatever is on its cards, looked at from outside: pack.json beside the cards, the pages
//! beside pack.json, the figures with a fact taken away.
//!
//! `WIRELORE_CASES=1000 cargo test --test it invariants` looks at so many random jobs; a plain run at fewer.

mod facts;
pub(crate) mod made;
pub(crate) mod mapping;
pub(crate) mod screws;
pub(crate) mod totals;

use crate::sites::{Knobs, Site};
use made::Made;
use rayon::prelude::*;

/// How many random jobs are looked at when nobody says.
const CASES: u64 = 140;

/// How many random jobs are looked at: as many as `WIRELORE_CASES` says.
pub(crate) fn cases() -> u64 {
    std::env::var("WIRELORE_CASES").ok().and_then(|text| text.parse().ok()).unwrap_or(CASES)
}

/// Looks at random jobs of every kind.
fn every_job(check: impl Fn(&Site) -> Result<(), String> + Sync) {
    let kinds = Knobs::kinds();
    (0..cases()).into_par_iter().for_each(|number| {
        let knobs = &kinds[usize::try_from(number).expect("small") % kinds.len()];
        let site = Site::dressed(number, knobs);
        if let Err(wrong) = check(&site) {
            panic!("site {number} of {knobs:?}: {wrong}");
        }
    });
}

#[test]
fn every_core_once_between_screws_that_are_there_and_no_screw_for_two() {
    every_job(|site| {
        let made = Made::of(site);
        mapping::every_core_once(&made)?;
        mapping::both_ends_are_there(&made)?;
        screws::none_for_two(&made)
    });
}

#[test]
fn totals_are_the_sums_of_their_parts() {
    every_job(|site| totals::check(&Made::of(site)));
}

#[test]
fn markdown_page_and_json_tell_the_same_mapping() {
    every_job(|site| mapping::pages_agree(&Made::of(site)));
}

#[test]
fn a_fact_that_is_lacking_is_never_made_up() {
    every_job(facts::check);
}
