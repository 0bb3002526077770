//! What the fuzz targets do (`fuzz/src`), over the inputs that are kept (`fuzz/seeds`) and over changed ones.
//!
//! `WIRELORE_FUZZ=15 cargo test --release --test it fuzz:: -- --nocapture` changes inputs for fifteen seconds for each
//! target and says how many; `WIRELORE_FUZZ_FROM` is a number that leads to other changes. A plain run tries a few.

#![allow(unreachable_pub, reason = "the fuzz targets call these from a crate of their own")]

mod changed;
#[path = "../../fuzz/src/demo.rs"]
mod demo;
#[path = "../../fuzz/src/find.rs"]
mod find;
#[path = "../../fuzz/src/form.rs"]
mod form;
mod kept;
#[path = "../../fuzz/src/pack.rs"]
mod pack;
#[path = "../../fuzz/src/pages_target.rs"]
mod pages_target;
#[path = "../../fuzz/src/read.rs"]
mod read;
#[path = "../../fuzz/src/readings.rs"]
mod readings;
#[path = "../../fuzz/src/renew.rs"]
mod renew;
#[path = "../../fuzz/src/set.rs"]
mod set;
#[path = "../../fuzz/src/table.rs"]
mod table;
#[path = "../../fuzz/src/texts.rs"]
mod texts;

use crate::sites::rng::Rng;
use std::panic::catch_unwind;
use std::time::{Duration, Instant};

/// How many changed inputs a target is given when nobody says how long.
const FEW: u64 = 12;

/// A number that somebody gave.
fn given(name: &str) -> Option<u64> {
    std::env::var(name).ok().and_then(|text| text.parse().ok())
}

/// Gives a target the inputs that are kept for it, then changed ones.
fn holds(target: &str, of: fn(&[u8])) {
    let one = |bytes: &[u8]| {
        if catch_unwind(|| of(bytes)).is_err() {
            let path = kept::failed(target, bytes);
            panic!("{target} fails: its input is {}; keep it in fuzz/seeds/{target}", path.display());
        }
    };
    let inputs = kept::inputs(target);
    for input in &inputs {
        one(input);
    }
    let words = kept::words();
    let from = given("WIRELORE_FUZZ_FROM").unwrap_or(0);
    let (begun, seconds) = (Instant::now(), given("WIRELORE_FUZZ").map(Duration::from_secs));
    let mut count = 0;
    while seconds.map_or(count < FEW, |seconds| begun.elapsed() < seconds) {
        one(&changed::changed(&mut Rng::new(from.wrapping_add(count)), &inputs, &words));
        count += 1;
    }
    println!("{target}: {} kept inputs, {count} changed ones", inputs.len());
}

#[test]
fn questions() {
    holds("find", find::find);
}

#[test]
fn forms() {
    holds("form", form::form);
}

#[test]
fn packs() {
    holds("pack", pack::pack);
}

#[test]
fn pages() {
    holds("pages", pages_target::pages);
}

#[test]
fn files_of_every_kind() {
    holds("read", read::read);
}

#[test]
fn files_of_readings() {
    holds("readings", readings::readings);
}

#[test]
fn indexes_brought_up_to_date() {
    holds("renew", renew::renew);
}

#[test]
fn facts_set() {
    holds("set", set::set);
}

#[test]
fn tables_of_terminals() {
    holds("table", table::table);
}
