//! Wirelore.

pub mod check;
pub mod choose;
pub mod diagnostics;
pub mod formula;
pub mod judge;
pub mod land;
pub mod model;
pub mod source;
pub mod units;
pub mod wording;
pub mod work;
