//! From a tree that has been held against the table of keys to the model. What a value refers to is checked here.
//! A value that the table has already refused reads as not given, so nothing is reported twice.

pub(crate) mod as_left;
pub(crate) mod board;
pub(crate) mod cable;
pub(crate) mod cite;
pub(crate) mod device;
pub(crate) mod fit;
pub(crate) mod look;
pub(crate) mod names;
pub(crate) mod note;
pub(crate) mod panel;
pub(crate) mod power;
pub(crate) mod rules;
pub(crate) mod survey;
pub(crate) mod survey_cable;
pub(crate) mod unit;
