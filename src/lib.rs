//! Wirelore.

pub mod choose;
pub mod cli;
pub mod formula;
pub mod judge;
pub mod land;
pub mod model;
pub mod search;
pub mod units;
pub mod work;
