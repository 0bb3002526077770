//! The tests' check of a fault's place.

#[path = "../../tests/it/check/within.rs"]
pub(crate) mod within;
