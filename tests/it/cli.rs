//! The real program, run in folders of its own.

mod caches;
mod checks;
mod faults;
mod figures;
mod finds;
mod gap_pages;
mod news;
mod notes;
mod packs;
mod packs_again;
mod packs_cut;
mod packs_many;
mod pictures;
mod pockets;
mod run;
mod sets;
mod sheets;
mod usage;
