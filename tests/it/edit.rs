//! One fact changed in a card's file, and not a byte of anything else.

mod every;
pub(crate) mod facts;
mod styles;
