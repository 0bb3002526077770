//! From a choice to screws: which core of which colour lands on which terminal.

mod lengths;
mod types;
pub mod volts;

pub use lengths::{MeasuredLoop, lengths, measured_loop, ohms_per_metre};
pub use types::{
    CableLength, Plan, PlannedCable, PlannedCore, PlannedItem, PlannedLoop, PlannedTrigger, SupplyPair, To,
};
