//! Wirelore.

pub mod choose;
pub mod land;
pub mod model;
pub mod units;
