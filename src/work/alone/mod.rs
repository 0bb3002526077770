//! One figure alone, without a survey: the formulas of a pack, put to numbers that someone typed.

mod battery;
mod cautions;
mod drop;
mod fuse;
mod loops;
mod wire;

pub use battery::{BatteryAnswer, BatteryQuestion, STOCK, battery};
pub use cautions::{FLAT, LEADS, OFF, PROOF};
pub use drop::{DropAnswer, DropQuestion, drop};
pub use fuse::{FuseAnswer, FuseQuestion, fuse};
pub use loops::{LoopQuestion, Resistors, loops};
pub use wire::Wire;

/// Where a number comes from that someone typed.
const TYPED: &str = "as typed";

/// Where a number comes from that nobody typed.
const ASSUMED: &str = "assumed";
