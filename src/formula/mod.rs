//! Each formula of the trade once: its value, with the numbers put in and where they come from.

pub mod battery;
pub mod copper;
pub mod cure;
pub mod drop;
pub mod fuse;
pub mod loops;
pub mod preferred;
pub mod sum;
mod worked;

pub use worked::{Given, Worked, finite};
