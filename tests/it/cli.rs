//! The real program, run in folders of its own.

mod caches;
mod checks;
mod faults;
mod figures;
mod finds;
mod news;
mod notes;
mod packs;
mod run;
mod sets;
mod sheets;
mod usage;
