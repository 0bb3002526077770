//! Each formula of the trade once: its value, with the numbers put in and where they come from.

pub mod copper;
pub mod drop;
mod worked;

pub use worked::{Given, Worked};
