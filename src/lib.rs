//! Wirelore.

pub mod check;
pub mod choose;
pub mod cli;
pub mod diagnostics;
pub mod formula;
pub mod judge;
pub mod land;
pub mod model;
pub mod pack;
pub mod render;
pub mod search;
pub mod source;
pub mod units;
pub mod wording;
pub mod work;
