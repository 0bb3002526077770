//! The one integration-test program.

mod check;
mod cli;
mod docs;
mod drawings;
mod figures;
mod findings;
mod outside;
mod pack;
mod pages;
mod plan;
mod rooms;
mod search;
mod sites;
mod test_sheet;
