//! The one integration-test program.

mod check;
mod cli;
mod docs;
mod draft;
mod drawings;
mod edit;
mod evidence;
mod figures;
mod findings;
mod fuzz;
mod guard;
mod invariants;
mod outside;
mod pack;
mod pages;
mod plan;
mod rooms;
mod search;
mod sheet;
mod sites;
mod test_sheet;
