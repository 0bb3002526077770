//! Wirelore.

pub mod choose;
pub mod formula;
pub mod judge;
pub mod land;
pub mod model;
pub mod pack;
pub mod render;
pub mod units;
pub mod wording;
pub mod work;
