//! What would cure a figure that fails: applied to the job it passes, a step less and it does not.

mod battery;
mod drop;
mod load;
mod loops;
