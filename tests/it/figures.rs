//! The figures of a plan, against published figures and against sums done by hand.

mod battery;
mod build;
mod cure;
mod demo;
mod drops;
mod limits;
mod loading;
mod loops;
mod numbers;
mod properties;
mod published;
mod verdict;
mod whole;
