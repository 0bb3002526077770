//! Every finding, one code a file; what was settled; and, here alone, whether a pack is ready.

mod types;

pub use types::{Code, Finding, Judgement, Level};
