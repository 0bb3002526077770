//! The tests' readers of pages.

#![allow(dead_code, reason = "the tests use the rest")]

#[path = "../../tests/it/pages/demo.rs"]
pub(crate) mod demo;
#[path = "../../tests/it/pages/harmless.rs"]
pub(crate) mod harmless;
#[path = "../../tests/it/pages/tables.rs"]
pub(crate) mod tables;

pub(crate) use harmless::assert_harmless;
