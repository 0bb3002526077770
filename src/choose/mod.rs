//! The plan's choice: which cable, wiring, input and output each item gets, as the true optimum of one ordered
//! cost. Integers only, and the same result every time.

mod types;

pub use types::{Choice, Chosen, Cost, Method, Shortage};
