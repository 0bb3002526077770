//! How hard one fuse works.

use super::TYPED;
use crate::formula::sum::within;
use crate::formula::{Given, Worked, fuse as formula};
use crate::units::Amps;

/// A fuse and what goes through it.
#[derive(Debug, Clone, Copy)]
pub struct FuseQuestion {
    /// What is printed on it.
    pub rating: Amps,
    /// What it carries for long.
    pub current: Amps,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct FuseAnswer {
    /// The share of its rating, as a fraction; no value for a rating of nothing.
    pub share: Worked,
    /// Whether it carries no more than its rating.
    pub ok: Option<bool>,
    /// Whether it carries more than three quarters of it, and no more than all of it (common practice).
    pub near: bool,
    /// Whether its rating is one of IEC 60127.
    pub made: bool,
    /// The ratings in which fuses are made around it, in amperes.
    pub around: Vec<Amps>,
}

/// How hard a fuse works (the rule of the pack's loading rows).
#[must_use]
pub fn fuse(question: FuseQuestion) -> FuseAnswer {
    let (current, rating) = (question.current.get(), question.rating.get());
    let given =
        vec![Given::new("I", Some(question.current), TYPED), Given::new("rating", Some(question.rating), TYPED)];
    let around = formula::around(rating);
    FuseAnswer {
        share: Worked::new("I/rating", given, formula::share(current, rating)),
        ok: within(Some(current), Some(rating)),
        near: formula::is_near(current, rating),
        made: formula::is_made(rating),
        around: around.into_iter().filter_map(Amps::new).collect(),
    }
}
