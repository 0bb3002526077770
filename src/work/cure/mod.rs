//! What would cure a figure that fails, worked out from the same numbers: each as numbers, and as the words that
//! findings and pages show.

mod battery;
mod cores;
mod drop;
mod feed;
mod load;
mod loops;
mod room;
mod show;

pub use battery::{BatteryCure, RechargeCure, battery, recharge};
pub use cores::{CoreCure, cores};
pub use drop::{Cores, DropCure, drop};
pub use feed::{FeedCure, feed};
pub use load::{LoadCure, NEAR, load};
pub use loops::{LoopCure, loops};
pub use room::{Room, rooms};

use super::Loading;
use crate::land::Plan;
use crate::model::Job;

/// What would cure a row of the loading table, `rows`, in words; `None` when nothing is wrong with it.
#[must_use]
pub fn loading_text(job: &Job<'_>, plan: &Plan, rows: &[Loading], row: &Loading) -> Option<String> {
    match cores(job, plan, row) {
        Some(cure) => Some(cure.text(job)),
        None => load(row).map(|cure| cure.text(row, &room::text(job, &rooms(job, rows, row, &cure)))),
    }
}
