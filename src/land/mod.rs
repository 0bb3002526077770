//! From a choice to screws: which core of which colour lands on which terminal.

mod types;

pub use types::{
    CableLength, Plan, PlannedCable, PlannedCore, PlannedItem, PlannedLoop, PlannedTrigger, SupplyPair, To,
};
