//! The tests' checks of whole jobs.

#![allow(dead_code, reason = "the tests use the rest")]

#[path = "../../tests/it/invariants/made.rs"]
pub(crate) mod made;
#[path = "../../tests/it/invariants/mapping.rs"]
pub(crate) mod mapping;
#[path = "../../tests/it/invariants/screws.rs"]
pub(crate) mod screws;
#[path = "../../tests/it/invariants/totals.rs"]
pub(crate) mod totals;
