//! Each formula of the trade once: its value, with the numbers put in and where they come from.

mod worked;

pub use worked::{Given, Worked};
